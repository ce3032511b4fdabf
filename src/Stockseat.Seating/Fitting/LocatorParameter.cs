namespace Stockseat.Seating.Fitting;

/// <summary>A value of the locators that masters of several diameters may tell.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="Drawing">Its value by the drawing, in metres or radians.</param>
/// <param name="PriorStandard">How uncertain that is before a touch, as a standard uncertainty in the same unit, above 0: the drawing's tolerance.</param>
public readonly record struct LocatorParameter(string Name, double Drawing, double PriorStandard);
