using Stockseat.Answers.Entries;
using Stockseat.Answers.Positions;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Frames;

namespace Stockseat.Answers.Recheck;

/// <summary>Decides a recheck: a master is found, and compared with where the revision in force predicts it. A hold does not refuse a recheck.</summary>
internal static class RecheckDecision
{
    public static EntryBody Decide(RecheckAsk ask, Situation situation)
    {
        var state = situation.Find(ask.Fixture);
        var refusal = ask.Denied
            ?? Unserved.Absent(ask.Fixture, state)
            ?? Unserved.Uncalibrated(state!)
            ?? Positioning.NoNest(state!.InForce!, ask.Column, ask.Row)
            ?? Fit.Judge(state.InForce!, ask.MasterMetres, Purpose.Pick, out _);
        return refusal is null ? Compare(ask, state!.InForce!) : ask.Refuse(refusal, state) with
        {
            By = ask.By,
            Note = ask.Note,
            Nest = [ask.Column, ask.Row],
            Diameter = ask.MasterMetres,
            MasterWithin = ask.WithinMetres,
            Found = Vectors.Three(ask.FoundMetres),
        };
    }

    private static RecheckBody Compare(RecheckAsk ask, Revision revision)
    {
        // A stand-off belongs to the gripper: a master that lies in its nest has none.
        var placed = Fit.Place(revision, ask.MasterMetres, standOffMetres: 0)!.Value;
        var offset = revision.Layout.OffsetBase(revision.Frame, ask.Column, ask.Row);
        var predicted = Correction.Of(revision.TaughtOrigin, revision.Frame, offset, placed.ShiftPlan).Pose.PositionMetres;
        var missBase = ask.FoundMetres - predicted;
        var (u, v, w) = (revision.Frame.U, revision.Frame.V, revision.Frame.W);
        var miss = new PlanMiss { Along = Vector3.Dot(missBase, v), Across = Vector3.Dot(missBase, u), OutOfPlan = Vector3.Dot(missBase, w) };
        var expected = Expected(ask, revision, placed);
        var limit = revision.Limits.RecheckMetres;
        return new()
        {
            Fixture = ask.Fixture,
            Revision = revision.Number,
            Digest = revision.Digest,
            By = ask.By,
            Note = ask.Note,
            Master = ask.MasterMetres,
            MasterWithin = ask.WithinMetres,
            Nest = [ask.Column, ask.Row],
            Predicted = Vectors.Three(predicted),
            Found = Vectors.Three(ask.FoundMetres),
            MissBase = Vectors.Three(missBase),
            Miss = miss,
            Expected = expected,
            Limit = limit,
            Passed = limit is { } l ? Within(missBase.Length, l)
                : expected is { } known ? Within(Math.Abs(miss.Along), known.Along) && Within(Math.Abs(miss.Across), known.Across) : null,
            RefuseAfterMiss = ask.RefuseAfterMiss,
        };
    }

    private static AnswerUncertainty? Expected(RecheckAsk ask, Revision revision, in SeatedStock placed)
    {
        if (Certainty.Master(revision, ask.WithinMetres) is not { } master)
        {
            return null;
        }

        var expanded = Certainty.Model(revision, placed, master).At(revision.Layout.OffsetPlan(ask.Column, ask.Row));
        return new() { Along = expanded.Along, Across = expanded.Across };
    }

    /// <summary>When the miss is exactly the limit, it may be rounded to either side.</summary>
    private static bool Within(double metres, double limit) => metres <= limit + Rounding.Metres;
}
