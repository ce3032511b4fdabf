using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Envelopes;

namespace Stockseat.Fixtures.Planning;

/// <summary>Which nest suits a range of diameters: the range, the candidates to choose from, and the limits that have to hold.</summary>
public sealed record PlanningQuestion
{
    /// <summary>The sensitivity limit unless stated: that of a 60° vee. Our own choice, without a source.</summary>
    public const double UsualSensitivity = 2;

    /// <summary>
    /// How far a vee's faces reach, in times the distance from the apex to the contact of the largest stock, unless stated. Our own choice, without a source.
    /// </summary>
    public const double FaceSpare = 1.1;

    /// <summary>The diameters that have to be held, in metres, both within <see cref="Plan.Reach"/>.</summary>
    public required (double From, double To) RangeMetres { get; init; }

    /// <summary>The diameters of the pins, in metres; each is tried at each spacing.</summary>
    public IReadOnlyList<double> PinMetres { get; init; } = [];

    /// <summary>The spacings between the centres of two pins, in metres.</summary>
    public IReadOnlyList<double> SpacingMetres { get; init; } = [];

    /// <summary>Rows of holes; the multiples of their pitch are spacings too.</summary>
    public IReadOnlyList<HolePitch> Holes { get; init; } = [];

    /// <summary>The included angles of vees, in radians.</summary>
    public IReadOnlyList<double> VeeRadians { get; init; } = [];

    /// <summary>How far from the apex the faces of a vee reach, in metres; null: see <see cref="FaceSpare"/>.</summary>
    public double? FaceMetres { get; init; }

    /// <summary>The pitch from nest to nest across, along u, in metres; null: no neighbours there.</summary>
    public double? PitchUMetres { get; init; }

    /// <summary>The pitch from nest to nest along the seat axis v, in metres; null: no neighbours there.</summary>
    public double? PitchVMetres { get; init; }

    /// <summary>The gap that all parts that may meet have to keep, in metres.</summary>
    public double GapMetres { get; init; }

    /// <summary>The greatest |dC/dR|, above 1.</summary>
    public double Sensitivity { get; init; } = UsualSensitivity;

    /// <summary>The least angle between the seat axis and a contact's normal, in radians.</summary>
    public double HeldRadians { get; init; } = Limits.UsualHeldRadians;

    public Gripper? Gripper { get; init; }

    /// <summary>The stand-offs with which the stock is gripped or set down, in metres; everything has to hold for each.</summary>
    public IReadOnlyList<double> StandOffMetres { get; init; } = [0];

    /// <summary>Whether there is anything that could be met.</summary>
    public bool HasGaps => PitchUMetres is not null || PitchVMetres is not null || Gripper is not null;

    /// <summary>The angle between seat axis and contact at which the sensitivity of a symmetric nest, 1/cos of that angle, is at its limit.</summary>
    public double MostContactRadians => Math.Acos(1 / Sensitivity);
}
