namespace Stockseat.Cli.Output.Shapes;

/// <summary>An answer to locate.</summary>
internal sealed record AnswerShape(
    long Serial, string Fixture, int Revision, string Digest, string Purpose, int[] Nest, double Diameter, string Unit, bool First,
    double[] Position, double[] Orientation, double[] ShiftBase, double[] ShiftOrigin, long? Measurement, double? Age,
    UncertaintyShape? Uncertainty, UncertaintyShape? UncertaintyWorst, IEnumerable<BudgetShape>? Budgets, string? Tag);
