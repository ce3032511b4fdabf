namespace Stockseat.Seating.Envelopes;

/// <summary>What binds at an end of an envelope.</summary>
public enum Constraint
{
    /// <summary>The stated range of diameters.</summary>
    StatedRange = 1,

    /// <summary>The stock drops between the locators, or no place clears them by the stand-off.</summary>
    NoSeat,

    /// <summary>The angle between the seat axis and the edge of the contacts' cone.</summary>
    HeldAngle,

    /// <summary>The extent of a face.</summary>
    FaceExtent,

    /// <summary>|dC/dR|.</summary>
    Sensitivity,

    /// <summary>The length of the shift.</summary>
    Shift,

    /// <summary>The mass of the stock.</summary>
    Payload,

    /// <summary>The gripper's stroke, closed or open.</summary>
    Stroke,

    /// <summary>A gap between two parties.</summary>
    Gap,

    /// <summary>
    /// Nothing up to the largest, or down to the smallest, diameter that is looked at; or, without a limit, more within reach than is looked at.
    /// </summary>
    Reach,
}
