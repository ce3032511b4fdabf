namespace Stockseat.Seating.Envelopes;

/// <summary>The constraint that sets an end of an envelope.</summary>
public enum Constraint
{
    /// <summary>The stated range of diameters.</summary>
    StatedRange = 1,

    /// <summary>The stock drops between the locators, or there is no place in which it clears them by the stand-off.</summary>
    NoSeat,

    /// <summary>The angle between the seat axis and the edge of the cone of the contact normals.</summary>
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
    /// Nothing binds up to the largest (or down to the smallest) diameter that is looked at; or, where a limit binds nothing, there is more within reach than
    /// is looked at.
    /// </summary>
    Reach,
}
