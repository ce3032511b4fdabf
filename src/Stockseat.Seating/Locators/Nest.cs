using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Locators;

/// <summary>One place for one piece of stock, located by exactly two locators.</summary>
/// <param name="First">The one locator.</param>
/// <param name="Second">The other.</param>
public readonly record struct Nest(Locator First, Locator Second)
{
    /// <summary>Two equal pins at u = ±spacing/2, v = 0.</summary>
    /// <param name="spacingMetres">Between the pins' centres, in metres.</param>
    /// <param name="diameterMetres">Of each pin, in metres.</param>
    public static Nest Pins(double spacingMetres, double diameterMetres) => new(
        Locator.Pin(new(-spacingMetres / 2, 0), diameterMetres / 2),
        Locator.Pin(new(spacingMetres / 2, 0), diameterMetres / 2));

    /// <summary>A symmetric vee with its apex at the origin, open towards +v.</summary>
    /// <param name="includedRadians">The angle between its faces, in radians, below π.</param>
    /// <param name="fromMetres">Where both faces begin, from the apex.</param>
    /// <param name="toMetres">Where both faces end, from the apex.</param>
    public static Nest Vee(
        double includedRadians, double fromMetres = double.NegativeInfinity, double toMetres = double.PositiveInfinity) => new(
        Locator.Face(default, includedRadians / 2, fromMetres, toMetres),
        Locator.Face(default, Math.PI - includedRadians / 2, fromMetres, toMetres));
}
