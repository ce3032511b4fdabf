namespace Stockseat.Seating.Fitting;

/// <summary>Why the values of the locators can't be found from the masters.</summary>
public enum LocatorFitFault
{
    /// <summary>They were found.</summary>
    None,

    /// <summary>The frame can't be fitted: see <see cref="LocatorFitOutcome.FrameFault"/>.</summary>
    Frame,

    /// <summary>
    /// With these diameters some parameters can't be told apart, from each other or from the frame: see <see cref="LocatorFitOutcome.Indistinct"/>.
    /// </summary>
    Indistinct,

    /// <summary>The iteration did not converge.</summary>
    NotConverged,

    /// <summary>A master has no seat with the values of the drawing: see <see cref="LocatorFitOutcome.Touch"/>.</summary>
    NoSeat,
}
