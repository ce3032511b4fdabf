namespace Stockseat.Seating.Fitting;

/// <summary>Why no frame follows from the touched points.</summary>
public enum FrameFitFault
{
    /// <summary>One follows.</summary>
    None,

    /// <summary>Fewer points than the fit needs: three, or two when the normal is held.</summary>
    TooFew,

    /// <summary>All points lie in one place, seen along the normal when that is held.</summary>
    Coincident,

    /// <summary>All points lie in one line: the turn about it is unknown. A held normal settles it.</summary>
    Collinear,

    /// <summary>The fitted normal is more than a right angle from the stated one: the nests are mirrored, or the normal points the wrong way.</summary>
    AgainstNormal,
}
