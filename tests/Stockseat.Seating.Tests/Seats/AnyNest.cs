using CsCheck;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Seats;

namespace Stockseat.Seating.Tests.Seats;

/// <summary>Nests of every pair of locator kinds, in either order, and a radius; metres. Some can hold stock, some can't.</summary>
public static class AnyNest
{
    private static readonly Gen<Locator> Left = OnSide(-0.05, -0.005, 0, 85);

    private static readonly Gen<Locator> Right = OnSide(0.005, 0.05, 95, 180);

    public static readonly Gen<(Nest Nest, double Radius)> WithARadius = Gen.Select(
        Left, Right, Gen.Bool, Gen.Double[0.003, 0.060], (left, right, swap, radius) => (swap ? new Nest(right, left) : new Nest(left, right), radius));

    /// <summary>Only the nests that hold stock well: those with a sensitivity up to a limit.</summary>
    public static Gen<(Nest Nest, double Radius)> Holding(double sensitivity) => WithARadius.Where((nest, radius) =>
        SeatSolver.TrySeat(nest, radius, out var seat) == SeatFault.None && seat.Sensitivity <= sensitivity);

    /// <summary>The nest mirrored at the seat axis.</summary>
    public static Nest Mirrored(Nest nest) => new(Mirrored(nest.First), Mirrored(nest.Second));

    /// <summary>The clearance between stock with its centre here and a locator, negative inside.</summary>
    public static double Gap(Locator locator, PlanVector centre, double radius) => locator.Kind == LocatorKind.Pin
        ? (centre - locator.Point).Length - locator.RadiusMetres - radius
        : PlanVector.Dot(locator.Normal, centre - locator.Point) - radius;

    private static Locator Mirrored(Locator locator) => locator.Kind == LocatorKind.Pin
        ? Locator.Pin(new(-locator.Point.U, locator.Point.V), locator.RadiusMetres)
        : Locator.Face(new(-locator.Point.U, locator.Point.V), Math.PI - Math.Atan2(locator.Normal.V, locator.Normal.U));

    private static Gen<Locator> OnSide(double fromU, double toU, double fromDegrees, double toDegrees) => Gen.Select(
        Gen.Bool, Gen.Double[fromU, toU], Gen.Double[-0.015, 0.015], Gen.Double[0.002, 0.015], Gen.Double[fromDegrees, toDegrees],
        (isPin, u, v, radius, normal) => isPin ? Locator.Pin(new(u, v), radius) : Locator.Face(new(u, v), normal * Math.PI / 180));
}
