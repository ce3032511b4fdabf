namespace Stockseat.Cli.Output.Shapes;

/// <summary>A recheck; in a trend, in which ways it lies beyond the control limits.</summary>
internal sealed record RecheckShape(
    long Serial, string At, string Fixture, int Revision, string Digest, string By, string? Note, string Unit, double Master, double? MasterWithin, int[] Nest,
    double[] Predicted, double[] Found, double[] MissBase, MissShape Miss, UncertaintyShape? Expected, double? Limit, string Verdict, bool RefusesAsks)
{
    public IEnumerable<string>? BeyondControlLimits { get; init; }
}

internal sealed record MissShape(double Along, double Across, double OutOfPlan);
