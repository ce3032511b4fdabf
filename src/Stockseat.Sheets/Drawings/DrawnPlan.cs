using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Quantities;

namespace Stockseat.Sheets.Drawings;

/// <summary>A plan with what is drawn of it, computed once for all its drawings.</summary>
public sealed record DrawnPlan
{
    /// <summary>The most diameters that one drawing shows besides the taught one: more lines can't be told apart.</summary>
    public const int Most = 6;

    private const string TaughtDashes = "5 1 0.6 1";

    private static readonly string[] Patterns = ["", "3 1.2", "1 1", "6 1.5", "3 1 0.6 1 0.6 1", "8 1 2 1"];

    /// <summary>Solved only when somebody looks at it: a plan at stated diameters is drawn without.</summary>
    private readonly Lazy<(Envelope? Envelope, EnvelopeEnd? Violated)> _envelope;

    private DrawnPlan(Plan plan, Lazy<(Envelope? Envelope, EnvelopeEnd? Violated)> envelope, IReadOnlyList<DrawnDiameter> asked, DrawnDiameter taught)
    {
        (Plan, _envelope, Asked, Taught) = (plan, envelope, asked, taught);
        Worked = asked.FirstOrDefault(d => d.Stock is not null) ?? taught;
    }

    public Plan Plan { get; }

    /// <summary>The unit in which lengths are shown.</summary>
    public LengthUnit Unit { get; init; } = LengthUnit.Millimetre;

    /// <summary>The axes of the plan in base; null: the base axes are not drawn.</summary>
    public PlanFrame? Frame { get; init; }

    /// <summary>The diameters that are allowed; null when not even the taught one is.</summary>
    public Envelope? Envelope => _envelope.Value.Envelope;

    /// <summary>What is violated at the taught diameter, when there is no envelope.</summary>
    public EnvelopeEnd? Violated => _envelope.Value.Violated;

    /// <summary>The diameters that were asked for, the largest first; the ends of the envelope when none was asked for.</summary>
    public IReadOnlyList<DrawnDiameter> Asked { get; }

    public DrawnDiameter Taught { get; }

    /// <summary>The largest diameter asked for that has a seat, otherwise the taught one: the jaws are drawn around it.</summary>
    public DrawnDiameter Worked { get; }

    /// <summary>All diameters, the largest first.</summary>
    public IEnumerable<DrawnDiameter> All => Asked.Append(Taught).OrderByDescending(d => d.Metres);

    /// <summary>Computes what is drawn.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="diametersMetres">The diameters that are asked for, in metres, each above 0; at most <see cref="Most"/> different ones.</param>
    public static DrawnPlan Of(Plan plan, IEnumerable<double> diametersMetres)
    {
        var envelope = new Lazy<(Envelope?, EnvelopeEnd?)>(() => (EnvelopeSolver.Solve(plan, out var violated), violated));
        var asked = diametersMetres.Distinct().ToList();
        if (asked.Count == 0 && envelope.Value.Item1 is { } solved)
        {
            asked = [.. Ends(solved).Distinct()];
        }

        ArgumentOutOfRangeException.ThrowIfGreaterThan(asked.Count, Most, nameof(diametersMetres));
        asked.RemoveAll(d => d == plan.TaughtDiameterMetres);
        return new(
            plan, envelope,
            [.. asked.OrderDescending().Select((d, i) => Make(plan, ((char)('A' + i)).ToString(), d, Patterns[i]))],
            Make(plan, "T", plan.TaughtDiameterMetres, TaughtDashes));
    }

    private static IEnumerable<double> Ends(Envelope envelope) =>
        new[] { envelope.Least, envelope.Greatest }.Where(e => e.Constraint != Constraint.Reach).Select(e => e.DiameterMetres);

    private static DrawnDiameter Make(Plan plan, string key, double metres, string dashes)
    {
        var gaps = Gaps.At(plan, metres).Where(g => g.Counts).ToList();
        return new(key, metres, dashes, PlanShapes.Stock(plan, metres), gaps.Count == 0 ? null : gaps[0]);
    }
}
