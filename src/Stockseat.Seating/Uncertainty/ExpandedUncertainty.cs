namespace Stockseat.Seating.Uncertainty;

/// <summary>How uncertain a position in the plan is: expanded uncertainty U, k = 2, in metres.</summary>
/// <param name="Along">Along the seat axis.</param>
/// <param name="Across">Across it.</param>
public readonly record struct ExpandedUncertainty(double Along, double Across)
{
    /// <summary>The larger of the two.</summary>
    public double Larger => Math.Max(Along, Across);

    /// <summary>The larger value for each direction.</summary>
    public static ExpandedUncertainty Max(ExpandedUncertainty a, ExpandedUncertainty b) => new(Math.Max(a.Along, b.Along), Math.Max(a.Across, b.Across));

    /// <summary>The expanded uncertainty that follows from a propagation.</summary>
    public static ExpandedUncertainty Of(in Propagation sum) => new(Propagation.CoverageFactor * sum.Along, Propagation.CoverageFactor * sum.Across);
}
