namespace Stockseat.Seating.Uncertainty;

/// <summary>What a seat centre's uncertainty comes from.</summary>
public enum Component
{
    /// <summary>The limits of error of the gauge that measured the stock.</summary>
    Gauge = 1,

    /// <summary>The step of its display.</summary>
    Resolution,

    /// <summary>How its readings repeat.</summary>
    Repeatability,

    /// <summary>A diameter that no gauge with limits of error measured.</summary>
    AskedDiameter,

    /// <summary>The diameter that the origin was taught with.</summary>
    TaughtDiameter,

    /// <summary>A lobed contour: it moves the seat, and a two-point diameter can't see odd lobes.</summary>
    Roundness,

    /// <summary>The pins' diameters.</summary>
    LocatorDiameter,

    /// <summary>Where the locators are: pins across and along, faces along their normal.</summary>
    LocatorPosition,

    /// <summary>How faces are turned about their stated points.</summary>
    LocatorAngle,

    /// <summary>The stock not fully home: a gap at each contact.</summary>
    Seating,

    /// <summary>An unsquare saw cut, over the height between the locators and the grip.</summary>
    Lean,

    /// <summary>How well the origin was taught.</summary>
    Teaching,

    /// <summary>Where the fixture stands against where it was taught.</summary>
    Frame,

    /// <summary>How the fixture is turned, about all three axes; it acts over the distance from nest 0,0.</summary>
    FrameAngle,

    /// <summary>How the robot comes back to a place.</summary>
    Robot,
}
