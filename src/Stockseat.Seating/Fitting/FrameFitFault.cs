namespace Stockseat.Seating.Fitting;

/// <summary>Why there is no frame that fits the touched points.</summary>
public enum FrameFitFault
{
    /// <summary>There is one.</summary>
    None,

    /// <summary>Fewer points than the fit needs: three, or two when the normal is held.</summary>
    TooFew,

    /// <summary>All points lie in one place, seen along the normal when that is held.</summary>
    Coincident,

    /// <summary>All points lie in one line, so the turn about that line is unknown. With a held normal it is known.</summary>
    Collinear,

    /// <summary>The fitted normal is more than a right angle away from the stated one: the nests are mirrored, or the normal points the wrong way.</summary>
    AgainstNormal,
}
