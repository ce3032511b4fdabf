using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Envelopes;

/// <summary>How a part moves when the diameter changes.</summary>
internal enum Motion
{
    /// <summary>It stands still.</summary>
    Fixed,

    /// <summary>It is stock of the same diameter in a nest.</summary>
    Stock,

    /// <summary>It is stock in closed jaws, off its locators by the stand-off.</summary>
    Gripped,

    /// <summary>It is a closed jaw.</summary>
    Closed,

    /// <summary>It is an open jaw.</summary>
    Open,

    /// <summary>It moves with the centre of the gripper.</summary>
    Palm,
}

/// <summary>A part of the plan, and how it moves.</summary>
/// <param name="Motion">How it moves.</param>
/// <param name="Shape">Its shape: for a jaw with its inner side at the centre of the gripper, for stock a point at the origin of its nest.</param>
internal readonly record struct Part(Motion Motion, Shape Shape)
{
    public Party Party => Shape.Party;

    public Jaws Jaws => Motion switch
    {
        Motion.Closed or Motion.Palm or Motion.Gripped => Jaws.Closed,
        Motion.Open => Jaws.Open,
        _ => Jaws.None,
    };

    /// <summary>Where it is.</summary>
    public Shape At(in Stance stance) => Motion switch
    {
        Motion.Stock => Shape.Disc(Party, Shape.From + stance.Seat, stance.RadiusMetres),
        Motion.Gripped => Shape.Disc(Party, stance.Clear, stance.RadiusMetres),
        Motion.Closed => Shape.Moved(stance.Clear + (stance.RadiusMetres * Outward)),
        Motion.Open => Shape.Moved(stance.Clear + (stance.OpenRadiusMetres * Outward)),
        Motion.Palm => Shape.Moved(stance.Clear),
        _ => Shape,
    };

    /// <summary>
    /// How far any of its points, or its rim, moves at most between two diameters, in metres. It bounds the way to all diameters in between as well: C moves on
    /// a line, or on one half of one branch of a hyperbola (two pins) or of a parabola (pin and face). The tangents of these turn by less than 90° in all, so
    /// the chord grows with the change of the diameter. Radii grow with it in any case.
    /// </summary>
    public double Moved(in Stance a, in Stance b) => Motion switch
    {
        Motion.Stock => (a.Seat - b.Seat).Length + Math.Abs(a.RadiusMetres - b.RadiusMetres),
        Motion.Closed or Motion.Gripped => (a.Clear - b.Clear).Length + Math.Abs(a.RadiusMetres - b.RadiusMetres),
        Motion.Open => (a.Clear - b.Clear).Length + Math.Abs(a.OpenRadiusMetres - b.OpenRadiusMetres),
        Motion.Palm => (a.Clear - b.Clear).Length,
        _ => 0,
    };

    /// <summary>
    /// The same per metre of diameter, at the lower end of a step: ½S for the centre, ½ for a radius. S = |dC/dR| falls as R grows, since it is 1/cos(β/2) with
    /// β the angle between the contact normals, and cos β is constant (two faces), 1 − (L² − (r₁ − r₂)²)/(2ρ₁ρ₂) (two pins) or (R + n·(F − P))/(R + r) (pin and
    /// face). So S in the seat also bounds S of the centre of the gripper, at R + g.
    /// </summary>
    public double Rate(double sensitivity) => Motion switch
    {
        Motion.Fixed => 0,
        Motion.Palm => sensitivity / 2,
        _ => (sensitivity + 1) / 2,
    };

    private PlanVector Outward => 1 / (Shape.To - Shape.From).Length * (Shape.To - Shape.From);
}
