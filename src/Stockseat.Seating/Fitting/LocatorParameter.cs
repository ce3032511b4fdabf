namespace Stockseat.Seating.Fitting;

/// <summary>A value of the locators that may be found from masters of several diameters.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="Drawing">Its value in the drawing, in metres or radians.</param>
/// <param name="PriorStandard">How uncertain that value is before any touch, from the tolerance of the drawing: a standard uncertainty in the same unit, above
/// 0.</param>
public readonly record struct LocatorParameter(string Name, double Drawing, double PriorStandard);
