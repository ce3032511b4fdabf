namespace Stockseat.Seating.Fitting;

/// <summary>Why no values of the locators follow from the masters.</summary>
public enum LocatorFitFault
{
    /// <summary>They follow.</summary>
    None,

    /// <summary>The frame can't be fitted: see <see cref="LocatorFitOutcome.FrameFault"/>.</summary>
    Frame,

    /// <summary>The diameters can't tell some parameters apart, from each other or from the frame: see <see cref="LocatorFitOutcome.Indistinct"/>.</summary>
    Indistinct,

    /// <summary>The iteration did not come to rest.</summary>
    NotConverged,

    /// <summary>A master has no seat by the drawing's values: see <see cref="LocatorFitOutcome.Touch"/>.</summary>
    NoSeat,
}
