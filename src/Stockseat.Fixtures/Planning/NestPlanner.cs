using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Seats;

namespace Stockseat.Fixtures.Planning;

/// <summary>Judges which spacing, pin or vee holds a range of diameters.</summary>
public static class NestPlanner
{
    /// <summary>The end of an envelope is found to this, in metres; a range that ends this close beyond it still holds.</summary>
    private const double EndMetres = 1e-6;

    /// <summary>One neighbour on each side: the nests beyond are hidden behind it.</summary>
    private const int WithNeighbours = 2;

    /// <summary>Judges all candidates of a question.</summary>
    /// <param name="question">The question; with <see cref="Candidates.Most"/> combinations at most.</param>
    /// <param name="first">For how many of the best the smallest gap is found: that takes far longer than everything else, and decides only between a
    /// few.</param>
    public static NestPlanning Judge(PlanningQuestion question, int first = Candidates.Most)
    {
        var candidates = Candidates.Of(question);
        var judged = candidates.All.Select(c => Judge(question, c)).Order(Ranking.BestFirst).ToArray();
        var detailed = Math.Min(first, judged.Length);
        while (detailed > 0 && detailed < judged.Length && Ranking.AreEqualButForGap(judged[detailed - 1], judged[detailed]))
        {
            detailed++;
        }

        var best = judged.Take(detailed).Select(j => j with { Gap = GapOf(question, j) }).Order(Ranking.BestFirst);
        return new(question, [.. best, .. judged.Skip(detailed)], candidates.Overlapping);
    }

    private static JudgedCandidate Judge(PlanningQuestion question, Candidate candidate)
    {
        var (from, to) = question.RangeMetres;
        var face = FaceOf(question, candidate);
        var nest = candidate.Nest(face);
        var (least, most) = (SeatOf(nest, from), SeatOf(nest, to));
        var (envelope, violated) = EnvelopeOf(question, nest);
        return new()
        {
            Candidate = candidate,
            Holds = envelope is not null && envelope.Least.DiameterMetres <= from + EndMetres && envelope.Greatest.DiameterMetres >= to - EndMetres,
            Share = ShareOf(question.RangeMetres, envelope),
            HalfAngleRadians = (candidate.HalfAngle(from), candidate.HalfAngle(to)),
            HeldRadians = (least?.HeldRadians, most?.HeldRadians),
            Sensitivity = (least?.Sensitivity, most?.Sensitivity),
            MarginRadians = least is { } a && most is { } b
                ? Math.Min(Math.Min(a.HeldRadians, b.HeldRadians) - question.HeldRadians, question.MostContactRadians - Math.Max(a.HeldRadians, b.HeldRadians))
                : null,
            ShiftMetres = least is { } first && most is { } last ? (last.Centre - first.Centre).Length : null,
            FaceMetres = face,
            Envelope = envelope,
            Violated = violated,
        };
    }

    /// <summary>How far the faces of a vee reach. Where nothing can meet them they need no end.</summary>
    private static double? FaceOf(PlanningQuestion question, Candidate candidate) =>
        candidate.Kind == LocatorKind.Pin ? null
        : question.FaceMetres ?? (question.HasGaps ? PlanningQuestion.FaceSpare * question.RangeMetres.To / 2 / Math.Tan(candidate.IncludedRadians / 2) : null);

    private static (Envelope? Envelope, EnvelopeEnd? Violated) EnvelopeOf(PlanningQuestion question, Nest nest)
    {
        var middle = (question.RangeMetres.From + question.RangeMetres.To) / 2;
        if (SeatSolver.TrySeat(nest, middle / 2, out var taught) is not SeatFault.None and var fault)
        {
            return (null, new(middle, fault == SeatFault.ContactOffFace ? Constraint.FaceExtent : Constraint.NoSeat, null, null));
        }

        Envelope? all = null;
        foreach (var standOff in question.StandOffMetres)
        {
            if (EnvelopeSolver.Solve(PlanOf(question, nest, taught, middle, standOff), out var violated) is not { } one)
            {
                return (null, violated);
            }

            all = all is null ? one : new(
                all.Least.DiameterMetres >= one.Least.DiameterMetres ? all.Least : one.Least,
                all.Greatest.DiameterMetres <= one.Greatest.DiameterMetres ? all.Greatest : one.Greatest);
        }

        return (all, null);
    }

    private static SmallestGap? GapOf(PlanningQuestion question, JudgedCandidate judged)
    {
        if (!question.HasGaps || judged.Sensitivity is not ({ }, { }))
        {
            return null;
        }

        var nest = judged.Candidate.Nest(judged.FaceMetres);
        var middle = (question.RangeMetres.From + question.RangeMetres.To) / 2;
        SeatSolver.TrySeat(nest, middle / 2, out var taught);
        return question.StandOffMetres.Select(s => RangeGap.Find(PlanOf(question, nest, taught, middle, s), question.RangeMetres))
            .Where(g => g is not null).MinBy(g => g!.Value.Reading.Metres);
    }

    private static Plan PlanOf(PlanningQuestion question, Nest nest, in Seat taught, double middle, double standOff) => new()
    {
        Nest = nest,
        Taught = taught,
        TaughtDiameterMetres = middle,
        StandOffMetres = standOff,
        Columns = question.PitchUMetres is null ? 1 : WithNeighbours,
        Rows = question.PitchVMetres is null ? 1 : WithNeighbours,
        ColumnStep = new PlanVector(question.PitchUMetres ?? 0, 0),
        RowStep = new PlanVector(0, question.PitchVMetres ?? 0),
        Gripper = question.Gripper,
        GapMetres = question.HasGaps ? question.GapMetres : null,
        Sensitivity = question.Sensitivity,
        HeldRadians = question.HeldRadians,
    };

    private static double ShareOf((double From, double To) range, Envelope? envelope)
    {
        if (envelope is null)
        {
            return 0;
        }

        var (from, to) = (Math.Max(range.From, envelope.Least.DiameterMetres), Math.Min(range.To, envelope.Greatest.DiameterMetres));
        return range.To - range.From > 2 * EndMetres ? Math.Clamp((to - from) / (range.To - range.From), 0, 1) : 1;
    }

    private static Seat? SeatOf(in Nest nest, double diameterMetres) =>
        SeatSolver.TrySeat(nest, diameterMetres / 2, out var seat) == SeatFault.None ? seat : null;
}
