using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Locators;

/// <summary>
/// One fixed contact in the plan. A pin: centre P, radius r; contact when |C − P| = R + r.
/// A face: a point F and the unit normal n towards the stock; contact when n·(C − F) = R, and the contact lies on its extent.
/// </summary>
public readonly record struct Locator
{
    /// <summary>A face counts as lying along u when the part of its direction along v is below this; its extent then grows towards +u.</summary>
    private const double AlongU = 1e-12;

    private Locator(LocatorKind kind, PlanVector point, double radiusMetres, PlanVector normal, double from, double to)
    {
        Kind = kind;
        Point = point;
        RadiusMetres = radiusMetres;
        Normal = normal;
        FromMetres = from;
        ToMetres = to;
    }

    /// <summary>Pin or face.</summary>
    public LocatorKind Kind { get; }

    /// <summary>The pin's centre P, or the face's point F, in metres.</summary>
    public PlanVector Point { get; }

    /// <summary>The pin's radius in metres; 0 for a face.</summary>
    public double RadiusMetres { get; }

    /// <summary>The face's unit normal towards the stock; zero for a pin.</summary>
    public PlanVector Normal { get; }

    /// <summary>Where the face begins along itself, in metres from F; −∞ when unlimited.</summary>
    public double FromMetres { get; }

    /// <summary>Where the face ends along itself, in metres from F; +∞ when unlimited.</summary>
    public double ToMetres { get; }

    /// <summary>The direction along the face in which its extent grows: towards +v, or towards +u for a face along u.</summary>
    public PlanVector Along
    {
        get
        {
            var t = Normal.Turned;
            var grows = Math.Abs(t.V) > AlongU ? t.V : t.U;
            return grows < 0 ? -1 * t : t;
        }
    }

    /// <summary>A pin.</summary>
    /// <param name="centre">Its centre in metres.</param>
    /// <param name="radiusMetres">Its radius in metres, above 0.</param>
    public static Locator Pin(PlanVector centre, double radiusMetres)
    {
        Require(radiusMetres > 0 && double.IsFinite(radiusMetres), radiusMetres, nameof(radiusMetres), "a radius above 0, finite");
        RequirePlace(centre, nameof(centre));
        return new(LocatorKind.Pin, centre, radiusMetres, default, 0, 0);
    }

    /// <summary>A face.</summary>
    /// <param name="point">A point on it, in metres.</param>
    /// <param name="normalRadians">The direction of its normal towards the stock: from +u towards +v, in radians.</param>
    /// <param name="fromMetres">Where it begins along itself; −∞ when unlimited.</param>
    /// <param name="toMetres">Where it ends along itself; +∞ when unlimited.</param>
    public static Locator Face(
        PlanVector point, double normalRadians, double fromMetres = double.NegativeInfinity, double toMetres = double.PositiveInfinity)
    {
        RequirePlace(point, nameof(point));
        Require(double.IsFinite(normalRadians), normalRadians, nameof(normalRadians), "a finite angle");
        Require(!double.IsNaN(fromMetres), fromMetres, nameof(fromMetres), "a number, or −∞ for unlimited");
        Require(!double.IsNaN(toMetres), toMetres, nameof(toMetres), "a number, or +∞ for unlimited");
        var (sin, cos) = Math.SinCos(normalRadians);
        return new(LocatorKind.Face, point, 0, new(cos, sin), fromMetres, toMetres);
    }

    private static void RequirePlace(PlanVector place, string name) =>
        Require(double.IsFinite(place.U) && double.IsFinite(place.V), place, name, "two finite coordinates");

    private static void Require<T>(bool holds, T value, string name, string what)
    {
        if (!holds)
        {
            throw new ArgumentOutOfRangeException(name, value, what);
        }
    }
}
