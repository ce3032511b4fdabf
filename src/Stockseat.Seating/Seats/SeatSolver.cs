using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;

namespace Stockseat.Seating.Seats;

/// <summary>
/// The seat C(R) of stock of radius R in a nest, in closed form.
/// <para>Symbols: P, r a pin's centre and radius; F, n a face's point and normal; ρ = R + r; d = P₂ − P₁, L = |d|; t a unit vector square to d or n.</para>
/// <list type="bullet">
/// <item>face, face: nᵢ·C = nᵢ·Fᵢ + R, a 2×2 linear system.</item>
/// <item>pin, pin: C = P₁ + x·d/L ± h·t with x = L/2 + (r₁ − r₂)(ρ₁ + ρ₂)/(2L), h² = (ρ₁ − x)(ρ₁ + x).</item>
/// <item>pin, face: C = P + q·n ± s·t with q = n·(F − P) + R, s² = (ρ − q)(ρ + q).</item>
/// </list>
/// Of the solutions it takes the one in which the stock is held: v = λ₁n₁ + λ₂n₂ with λ₁, λ₂ &gt; 0. For two circles, and for a line and a circle, this can
/// only be the solution on the side of the seat axis. Source: plane geometry; the stability of two frictionless contacts; derived here.
/// </summary>
public static class SeatSolver
{
    private static readonly PlanVector SeatAxis = new(0, 1);

    /// <summary>Seats stock of a radius in a nest.</summary>
    /// <param name="nest">The nest.</param>
    /// <param name="radiusMetres">The stock's radius in metres, above 0.</param>
    /// <param name="seat">The seat; default when there is none.</param>
    /// <returns><see cref="SeatFault.None"/>, or why there is no seat.</returns>
    public static SeatFault TrySeat(in Nest nest, double radiusMetres, out Seat seat)
    {
        var fault = TryClear(nest, radiusMetres, 0, out seat);
        if (fault != SeatFault.None)
        {
            return fault;
        }

        if (OnFace(nest.First, seat.Centre, seat.FirstNormal, radiusMetres) && OnFace(nest.Second, seat.Centre, seat.SecondNormal, radiusMetres))
        {
            return SeatFault.None;
        }

        seat = default;
        return SeatFault.ContactOffFace;
    }

    /// <summary>The centre at which stock of a radius clears both locators by exactly the stand-off: C(R + g). A face's extent does not matter here.</summary>
    /// <param name="nest">The nest.</param>
    /// <param name="radiusMetres">The stock's radius in metres, above 0.</param>
    /// <param name="standOffMetres">The clearance g in metres, 0 or more.</param>
    /// <param name="seat">The centre with its normals; default when there is none.</param>
    /// <returns><see cref="SeatFault.None"/>, or why there is none.</returns>
    public static SeatFault TryClear(in Nest nest, double radiusMetres, double standOffMetres, out Seat seat)
    {
        if (!(radiusMetres > 0) || !double.IsFinite(radiusMetres) || !(standOffMetres >= 0) || !double.IsFinite(standOffMetres))
        {
            throw new ArgumentOutOfRangeException(
                nameof(radiusMetres), radiusMetres, "radius above 0 and stand-off of 0 or more, both finite");
        }

        seat = default;
        var reach = radiusMetres + standOffMetres;
        var (a, b) = (nest.First, nest.Second);
        var touches = (a.Kind, b.Kind) switch
        {
            (LocatorKind.Face, LocatorKind.Face) => Faces(a, b, reach, out var c) ? c : null,
            (LocatorKind.Pin, LocatorKind.Pin) => Pins(a, b, reach, out var c) ? c : null,
            (LocatorKind.Pin, _) => PinAndFace(a, b, reach, out var c) ? c : null,
            _ => PinAndFace(b, a, reach, out var c) ? c : (PlanVector?)null,
        };
        return touches is { } centre ? Hold(a, b, centre, reach, out seat) : SeatFault.NoContact;
    }

    internal static PlanVector Solve2(PlanVector n1, PlanVector n2, double first, double second)
    {
        var det = PlanVector.Cross(n1, n2);
        return new((first * n2.V - second * n1.V) / det, (second * n1.U - first * n2.U) / det);
    }

    private static bool Faces(in Locator a, in Locator b, double reach, out PlanVector centre)
    {
        var det = PlanVector.Cross(a.Normal, b.Normal);
        centre = Solve2(
            a.Normal, b.Normal, PlanVector.Dot(a.Normal, a.Point) + reach, PlanVector.Dot(b.Normal, b.Point) + reach);
        return Math.Abs(det) > 1e-12;
    }

    private static bool Pins(in Locator a, in Locator b, double reach, out PlanVector centre)
    {
        var d = b.Point - a.Point;
        var length = d.Length;
        var (rho1, rho2) = (reach + a.RadiusMetres, reach + b.RadiusMetres);
        var x = length / 2 + (a.RadiusMetres - b.RadiusMetres) * (rho1 + rho2) / (2 * length);
        return Offset(a.Point, 1 / length * d, x, rho1, out centre);
    }

    private static bool PinAndFace(in Locator pin, in Locator face, double reach, out PlanVector centre)
    {
        var q = PlanVector.Dot(face.Normal, face.Point - pin.Point) + reach;
        return Offset(pin.Point, face.Normal, q, reach + pin.RadiusMetres, out centre);
    }

    /// <summary>
    /// The point at distance <paramref name="rho"/> from <paramref name="from"/>: <paramref name="along"/> of it in direction e, the rest square to e, on the
    /// side of the seat axis.
    /// </summary>
    private static bool Offset(PlanVector from, PlanVector e, double along, double rho, out PlanVector centre)
    {
        var square = (rho - along) * (rho + along);
        var t = e.Turned;
        var side = PlanVector.Dot(t, SeatAxis) < 0 ? -1 : 1;
        centre = square > 0 ? from + along * e + side * Math.Sqrt(square) * t : default;
        return square > 0;
    }

    private static SeatFault Hold(in Locator a, in Locator b, PlanVector centre, double reach, out Seat seat)
    {
        seat = default;
        var (n1, n2) = (Normal(a, centre, reach), Normal(b, centre, reach));
        var det = PlanVector.Cross(n1, n2);
        var load = Solve2(new(n1.U, n2.U), new(n1.V, n2.V), SeatAxis.U, SeatAxis.V);
        if (!(Math.Abs(det) > 1e-12) || !(load.U > 0) || !(load.V > 0))
        {
            return SeatFault.NotHeld;
        }

        var held = Math.Min(Math.Atan2(Math.Abs(n1.U), n1.V), Math.Atan2(Math.Abs(n2.U), n2.V));
        seat = new(centre, n1, n2, Solve2(n1, n2, 1, 1), held);
        return SeatFault.None;
    }

    private static PlanVector Normal(in Locator locator, PlanVector centre, double reach) =>
        locator.Kind == LocatorKind.Face ? locator.Normal : 1 / (reach + locator.RadiusMetres) * (centre - locator.Point);

    private static bool OnFace(in Locator locator, PlanVector centre, PlanVector normal, double radiusMetres)
    {
        if (locator.Kind == LocatorKind.Pin)
        {
            return true;
        }

        var along = PlanVector.Dot(locator.Along, centre - radiusMetres * normal - locator.Point);
        return along >= locator.FromMetres && along <= locator.ToMetres;
    }
}
