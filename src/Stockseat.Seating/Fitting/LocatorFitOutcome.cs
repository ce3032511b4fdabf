namespace Stockseat.Seating.Fitting;

/// <summary>What came of a fit of locators: the fit, or the fault with its data.</summary>
/// <param name="Fault">Why there is no fit.</param>
/// <param name="Fit">The fit; null when there is a fault.</param>
/// <param name="FrameFault">Why the frame can't be fitted.</param>
/// <param name="Indistinct">The names of the parameters that the diameters can't tell apart; one alone can't be told from the frame.</param>
/// <param name="Touch">Which touch has no seat; null unless that is the fault.</param>
public sealed record LocatorFitOutcome(
    LocatorFitFault Fault, LocatorFit? Fit, FrameFitFault FrameFault, IReadOnlyList<string> Indistinct, int? Touch);
