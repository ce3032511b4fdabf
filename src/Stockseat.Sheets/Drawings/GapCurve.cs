using Stockseat.Seating.Envelopes;
using Stockseat.Sheets.Svg;

namespace Stockseat.Sheets.Drawings;

/// <summary>The smallest gap against the diameter in small steps, for a drawing; the ends of the envelope are found in a stricter way.</summary>
internal sealed class GapCurve
{
    private const int Steps = 160;

    /// <summary>The most pairs of nests that are examined in all, as long as the curve keeps a quarter of its steps.</summary>
    private const int Pairs = 100_000;

    private GapCurve(double from, double to, IReadOnlyList<(double Diameter, double? Gap)> points) => (From, To, Points) = (from, to, points);

    /// <summary>The range of diameters, in metres.</summary>
    public double From { get; }

    public double To { get; }

    /// <summary>In the order of the diameters; no gap where the stock has no seat, or where nothing is beside it.</summary>
    public IReadOnlyList<(double Diameter, double? Gap)> Points { get; }

    /// <summary>The largest and the smallest gap that has to be visible, in metres.</summary>
    public (double Low, double High) Span { get; private init; }

    public static GapCurve Of(DrawnPlan drawn)
    {
        var plan = drawn.Plan;
        var marked = drawn.All.Select(d => d.Metres).Concat(Ends(drawn)).ToList();
        var seen = plan.StatedMetres is { } stated ? marked.Append(stated.From).Append(stated.To).ToList() : marked;
        var margin = Math.Max(0.15 * (seen.Max() - seen.Min()), 0.1 * plan.TaughtDiameterMetres);
        var from = Math.Max(Plan.Reach.From, seen.Min() - Math.Min(margin, 0.4 * seen.Min()));
        var to = seen.Max() + margin;
        var near = Near(plan, to);
        var steps = Math.Clamp(Pairs / ((2 * near.Columns - 1) * (2 * near.Rows - 1)), Steps / 4, Steps);
        var points = Enumerable.Range(0, steps + 1).Select(i => from + ((to - from) * i / steps)).Concat(marked).Distinct().Order()
            .Select(d => (d, Gaps.At(near, d).Where(g => g.Counts).Select(g => (double?)g.Metres).FirstOrDefault())).ToList();
        return new(from, to, points) { Span = SpanOf(plan, points.Where(p => marked.Contains(p.d)).Select(p => p.Item2)) };
    }

    /// <summary>The ends of the envelope, except those that nothing limits.</summary>
    public static IEnumerable<double> Ends(DrawnPlan drawn) => drawn.Envelope is { } envelope
        ? new[] { envelope.Least, envelope.Greatest }.Where(e => e.Constraint != Constraint.Reach).Select(e => e.DiameterMetres)
        : [];

    /// <summary>
    /// The plan without the nests that are too far away for the smallest gap: a gap to a nest is at least the distance minus what reaches out, and the gap to
    /// the nearest nest is at most its distance. With obstacles all nests are kept, since each nest has them in another place.
    /// </summary>
    private static Plan Near(Plan plan, double greatestMetres)
    {
        double[] steps = [.. new[] { plan.ColumnStep.Length, plan.RowStep.Length }.Where(s => s > 0)];
        if (plan.Obstacles.Count > 0 || steps.Length == 0)
        {
            return plan;
        }

        var gripper = plan.Gripper is { } g ? Math.Max(g.Open(greatestMetres) + (2 * g.JawThicknessMetres) + g.JawWidthMetres, g.PalmDiameterMetres ?? 0) : 0;
        var stock = Math.Max(greatestMetres, plan.NeighbourDiameterMetres ?? 0);
        var reach = steps.Min() + gripper + (2 * stock) + new[] { plan.Nest.First, plan.Nest.Second }.Max(l => l.Point.Length + (2 * l.RadiusMetres));
        int Count(int all, double step) => step > 0 ? (int)Math.Min(all, Math.Ceiling(reach / step) + 1) : all;
        return plan with { Columns = Count(plan.Columns, plan.ColumnStep.Length), Rows = Count(plan.Rows, plan.RowStep.Length) };
    }

    private static (double Low, double High) SpanOf(Plan plan, IEnumerable<double?> gaps)
    {
        var known = gaps.OfType<double>().Append(2.5 * (plan.GapMetres ?? 0.001)).ToList();
        var high = 1.3 * Math.Max(known.Max(), 0.0001);
        return (Math.Clamp(1.1 * known.Min(), -6 * high, -0.1 * high), high);
    }
}
