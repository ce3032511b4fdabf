namespace Stockseat.Seating.Fitting;

/// <summary>The result of a fit of locators: the fit, or the fault with its data.</summary>
/// <param name="Fault">Why there is no fit.</param>
/// <param name="Fit">The fit; null when there is a fault.</param>
/// <param name="FrameFault">Why the frame can't be fitted.</param>
/// <param name="Indistinct">The names of the parameters that can't be told apart with these diameters; a single name: from the frame.</param>
/// <param name="Touch">Which touch has no seat; null for any other fault.</param>
public sealed record LocatorFitOutcome(
    LocatorFitFault Fault, LocatorFit? Fit, FrameFitFault FrameFault, IReadOnlyList<string> Indistinct, int? Touch);
