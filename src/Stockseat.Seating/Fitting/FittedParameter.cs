namespace Stockseat.Seating.Fitting;

/// <summary>A value of the locators after the fit.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="Value">The fitted value, in metres or radians.</param>
/// <param name="Standard">Its standard uncertainty, in the same unit.</param>
/// <param name="Drawing">Its value by the drawing.</param>
/// <param name="PosteriorToPrior">Its standard uncertainty after the touches to that before them: 1 when they told nothing, near 0 when they told all.</param>
public readonly record struct FittedParameter(string Name, double Value, double Standard, double Drawing, double PosteriorToPrior);
