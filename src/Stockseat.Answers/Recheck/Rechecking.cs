using System.Globalization;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Positions;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Answers.Verbs;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Frames;

namespace Stockseat.Answers.Recheck;

/// <summary>Decides a recheck: a master is found again, and compared with where the revision in force predicts it. A hold does not refuse it.</summary>
internal static class Rechecking
{
    public static EntryBody Decide(RecheckAsk ask, Situation situation)
    {
        var state = situation.Find(ask.Fixture);
        var refusal = ask.Denied
            ?? Decision.Absent(ask.Fixture, state)
            ?? Decision.Uncalibrated(ask.Fixture, state!)
            ?? Positioning.NoNest(state!.InForce!, ask.Column, ask.Row)
            ?? Fit.Judge(state.InForce!, ask.MasterMetres, Purpose.Pick, out _);
        return refusal is null ? Compare(ask, state!.InForce!) : Decision.Refuse(ask, refusal, state) with
        {
            By = ask.By,
            Note = ask.Note,
            Nest = [ask.Column, ask.Row],
            Diameter = ask.MasterMetres,
            MasterWithin = ask.WithinMetres,
            Found = Locating.Three(ask.FoundMetres),
        };
    }

    /// <summary>Why a fixture answers nothing after a recheck that missed; null when it does.</summary>
    public static Refusal? Failed(FixtureState state)
    {
        if (state.Missed is not { Refuses: true } miss)
        {
            return null;
        }

        var serial = miss.Serial.ToString(CultureInfo.InvariantCulture);
        var allowed = miss.Limit is { } limit ? $"limits.recheck is {Fit.M(limit)} m"
            : miss.Expected is { } u ? $"U (k = 2) is {Fit.M(u.Along)} m along and {Fit.M(u.Across)} m across" : "";
        return Refusal.Of(
            Reason.RecheckFailed,
            string.Create(
                CultureInfo.InvariantCulture,
                $"recheck {serial} found a master in nest {miss.Nest[0]},{miss.Nest[1]} of {state.Fixture} {Fit.M(miss.Length)} m from where revision {miss.Revision} predicts it ({Fit.M(miss.Miss.Along)} m along, {Fit.M(miss.Miss.Across)} m across); {allowed}"),
            ("serial", serial), ("miss_metres", Fit.M(miss.Length)));
    }

    private static RecheckBody Compare(RecheckAsk ask, Revision revision)
    {
        // The stand-off is the gripper's: a master that lies in its nest has none.
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
            Predicted = Locating.Three(predicted),
            Found = Locating.Three(ask.FoundMetres),
            MissBase = Locating.Three(missBase),
            Miss = miss,
            Expected = expected,
            Limit = limit,
            Passed = limit is { } l ? Within(missBase.Length, l)
                : expected is { } known ? Within(Math.Abs(miss.Along), known.Along) && Within(Math.Abs(miss.Across), known.Across) : null,
            RefuseAfterMiss = ask.RefuseAfterMiss,
        };
    }

    private static AnswerUncertainty? Expected(RecheckAsk ask, Revision revision, in Placement placed)
    {
        if (Certainty.Master(revision, ask.WithinMetres) is not { } master)
        {
            return null;
        }

        var expanded = Certainty.Model(revision, placed, master).At(revision.Layout.OffsetPlan(ask.Column, ask.Row));
        return new() { Along = expanded.Along, Across = expanded.Across };
    }

    /// <summary>A miss of exactly the limit rounds either way.</summary>
    private static bool Within(double metres, double limit) => metres <= limit + Measure.Rounding;
}
