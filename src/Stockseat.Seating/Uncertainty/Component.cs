namespace Stockseat.Seating.Uncertainty;

/// <summary>The sources of the uncertainty of a seat centre.</summary>
public enum Component
{
    /// <summary>The limits of error of the gauge that measured the stock.</summary>
    Gauge = 1,

    /// <summary>The step of that gauge's display.</summary>
    Resolution,

    /// <summary>How well that gauge's readings repeat.</summary>
    Repeatability,

    /// <summary>A diameter that was not measured by a gauge with limits of error.</summary>
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

    /// <summary>The stock is not fully home: a gap at each contact.</summary>
    Seating,

    /// <summary>An unsquare saw cut, over the height between the locators and the grip.</summary>
    Lean,

    /// <summary>How well the origin was taught.</summary>
    Teaching,

    /// <summary>Where the fixture stands now, relative to where it stood when it was taught.</summary>
    Frame,

    /// <summary>How the fixture is turned, about all three axes; it acts over the distance from nest 0,0.</summary>
    FrameAngle,

    /// <summary>How well the robot returns to a place.</summary>
    Robot,
}
