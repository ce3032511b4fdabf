namespace Stockseat.Cli.Output.Shapes;

/// <summary>What the uncertainty of a nest is made of.</summary>
internal sealed record BudgetShape(int[] Nest, UncertaintyShape Expanded, IEnumerable<BudgetLineShape> Lines, IEnumerable<string> NotStated);

internal sealed record BudgetLineShape(
    string Component, double Value, string Unit, string Distribution, double Standard, double[] Sensitivity, double[] Contribution, double[] Share);

/// <summary>Expanded, with k = 2, in metres.</summary>
internal sealed record UncertaintyShape(double Along, double Across, string Unit = "m", int K = 2);
