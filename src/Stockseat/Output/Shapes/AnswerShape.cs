namespace Stockseat.Cli.Output.Shapes;

/// <summary>An answer to locate.</summary>
internal sealed record AnswerShape(
    long Serial, string Fixture, int Revision, string Digest, string Purpose, int[] Nest, double Diameter, string Unit, bool First,
    double[] Position, double[] Orientation, double[] ShiftBase, double[] ShiftOrigin, long? Measurement, double? Age,
    UncertaintyShape? Uncertainty, UncertaintyShape? UncertaintyWorst, IEnumerable<BudgetShape>? Budgets, string? Tag)
{
    /// <summary>The load whose next nest it is.</summary>
    public long? Load { get; init; }

    /// <summary>How many nests of the load are left after this one.</summary>
    public int? Left { get; init; }
}
