using Stockseat.Seating.Locators;

namespace Stockseat.Fixtures.Planning;

/// <summary>A nest that may suit: two equal pins, or a symmetric vee.</summary>
/// <param name="Kind">Pins or faces.</param>
/// <param name="PinDiameterMetres">The diameter of each pin, in metres; 0 for a vee.</param>
/// <param name="SpacingMetres">Between the pins' centres, in metres; 0 for a vee.</param>
/// <param name="Holes">How many hole pitches the spacing is; null when it was stated itself.</param>
/// <param name="IncludedRadians">Between the vee's faces, in radians; 0 for pins.</param>
public readonly record struct Candidate(LocatorKind Kind, double PinDiameterMetres, double SpacingMetres, int? Holes, double IncludedRadians)
{
    public static Candidate Pins(double diameterMetres, double spacingMetres, int? holes = null) =>
        new(LocatorKind.Pin, diameterMetres, spacingMetres, holes, 0);

    public static Candidate Vee(double includedRadians) => new(LocatorKind.Face, 0, 0, null, includedRadians);

    /// <summary>
    /// The angle that characterizes its kind, in radians: for pins θ with sin θ = (s/2)/(R + r), for a vee half its included angle; null when the stock drops.
    /// </summary>
    /// <param name="diameterMetres">The stock's diameter, in metres.</param>
    public double? HalfAngle(double diameterMetres)
    {
        if (Kind == LocatorKind.Face)
        {
            return IncludedRadians / 2;
        }

        var sin = SpacingMetres / (diameterMetres + PinDiameterMetres);
        return sin < 1 ? Math.Asin(sin) : null;
    }

    /// <summary>The nest.</summary>
    /// <param name="faceMetres">How far from its apex the faces of a vee reach; null: without an end.</param>
    internal Nest Nest(double? faceMetres) => Kind == LocatorKind.Pin
        ? Seating.Locators.Nest.Pins(SpacingMetres, PinDiameterMetres)
        : faceMetres is { } face
            ? Seating.Locators.Nest.Vee(IncludedRadians, 0, face)
            : Seating.Locators.Nest.Vee(IncludedRadians);
}
