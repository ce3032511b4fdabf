namespace Stockseat.Seating.Fitting;

/// <summary>A value of the locators after the fit.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="Value">The fitted value, in metres or radians.</param>
/// <param name="Standard">Its standard uncertainty, in the same unit.</param>
/// <param name="Drawing">Its value in the drawing.</param>
/// <param name="PosteriorToPrior">The ratio of its standard uncertainty after the touches to that before them: 1 when the touches say nothing about it, near 0
/// when they determine it.</param>
public readonly record struct FittedParameter(string Name, double Value, double Standard, double Drawing, double PosteriorToPrior);
