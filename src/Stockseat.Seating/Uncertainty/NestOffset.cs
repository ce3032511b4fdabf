namespace Stockseat.Seating.Uncertainty;

/// <summary>From nest 0,0 to a nest, in the plan's axes, in metres.</summary>
/// <param name="U">Across.</param>
/// <param name="V">Along the seat axis.</param>
/// <param name="W">Out of the plan.</param>
public readonly record struct NestOffset(double U, double V, double W);
