using CsCheck;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Seats;
using Stockseat.Seating.Tests.Seats;

namespace Stockseat.Seating.Tests.Envelopes;

/// <summary>Plans with nests of every pair of locator kinds, neighbours, a gripper, obstacles and limits, some of them not stated. Metres.</summary>
internal static class AnyPlan
{
    private static readonly Gen<PlanVector> Place = Gen.Select(Gen.Double[-0.20, 0.20], Gen.Double[-0.10, 0.30], (u, v) => new PlanVector(u, v));

    private static readonly Gen<Obstacle> Obstacle = Gen.Select(
        Place, Place, Gen.Bool, Gen.Double[0.002, 0.020], Height(0.01, 0.10),
        (from, to, isPost, diameter, top) => new Obstacle("thing", from, isPost ? from : from + (0.3 * (to - from)), diameter, top));

    private static readonly Gen<Gripper?> Gripper = Gen.Select(
        Gen.Int[0, 4], Gen.Double[0.004, 0.020], Gen.Double[0.004, 0.015], Gen.Double[-4, 4], Gen.Double[0.004, 0.02],
        Gen.Bool, Height(0, 0.10), Height(0.02, 0.12), Gen.Double[0.02, 0.10],
        (jaws, width, thickness, clocking, open, hasPalm, tip, palmHeight, palm) => jaws == 0 ? null : new Gripper
        {
            Jaws = jaws, JawWidthMetres = width, JawThicknessMetres = thickness, ClockingRadians = clocking, OpenByMetres = open,
            StrokeMetres = (0.002, 0.25), PalmDiameterMetres = hasPalm ? palm : null, JawTipHeightMetres = tip, PalmHeightMetres = palmHeight,
        });

    private static readonly Gen<Plan> Limits = Gen.Select(
        Gen.Double[0, 0.003], Gen.Double[0, 0.002], Height(0.005, 0.05), Height(1.5, 5), Gen.Double[0, 0.3], Height(0.05, 0.1),
        (gap, standOff, shift, sensitivity, held, length) => new Plan
        {
            Nest = default, Taught = default, TaughtDiameterMetres = 0,
            GapMetres = gap < 0.0005 ? null : gap, StandOffMetres = standOff < 0.0005 ? 0 : standOff, ShiftMetres = shift, Sensitivity = sensitivity,
            HeldRadians = held, StockLengthMetres = length, Density = 7850, PayloadKilograms = 20,
        });

    /// <summary>Any plan; its limits may be violated at the taught diameter.</summary>
    public static readonly Gen<Plan> Of = Gen.Select(
        AnyNest.Holding(3), Limits, Gripper, Obstacle.Array[0, 2], Gen.Int[1, 3], Gen.Int[1, 3],
        Gen.Select(Gen.Double[0.15, 0.4], Gen.Double[0.15, 0.4], Gen.Double[-0.05, 0.05], Height(0, 0.08), Gen.Double[0.8, 1.2]),
        (nest, limits, gripper, obstacles, columns, rows, steps) =>
        {
            var stock = Faced(nest.Nest);
            SeatSolver.TrySeat(stock, nest.Radius, out var taught);
            return limits with
            {
                Nest = stock, Taught = taught,
                TaughtDiameterMetres = 2 * nest.Radius, Gripper = steps.Item3 < 0 ? gripper : OpensTo(gripper, nest.Radius), Obstacles = obstacles,
                Columns = columns, Rows = rows, ColumnStep = new(steps.Item1, steps.Item3), RowStep = new(-steps.Item3, steps.Item2),
                LocatorTopMetres = steps.Item4, NeighbourDiameterMetres = steps.Item5 < 1 ? null : steps.Item5 * 2 * nest.Radius,
            };
        }).Where(plan => plan.Taught != default);

    /// <summary>Plans that allow their taught diameter.</summary>
    public static readonly Gen<(Plan Plan, Envelope Envelope)> Holding =
        Of.Select(plan => (plan, EnvelopeSolver.Solve(plan, out _)!)).Where(solved => solved.Item2 is not null);

    /// <summary>The same plan in another place.</summary>
    public static Plan Shifted(Plan plan, PlanVector by) => plan with
    {
        Nest = new(Shifted(plan.Nest.First, by), Shifted(plan.Nest.Second, by)),
        Taught = plan.Taught with { Centre = plan.Taught.Centre + by },
        Obstacles = [.. plan.Obstacles.Select(thing => thing with { From = thing.From + by, To = thing.To + by })],
    };

    /// <summary>The plan mirrored at the seat axis.</summary>
    public static Plan Mirrored(Plan plan)
    {
        var nest = new Nest(Mirrored(plan.Nest.First), Mirrored(plan.Nest.Second));
        return plan with
        {
            Nest = nest,
            Taught = SeatOf.Stock(nest, plan.TaughtDiameterMetres / 2),
            ColumnStep = Mirrored(plan.ColumnStep),
            RowStep = Mirrored(plan.RowStep),
            Gripper = plan.Gripper is { } gripper ? gripper with { ClockingRadians = Math.PI - gripper.ClockingRadians } : null,
            Obstacles = [.. plan.Obstacles.Select(thing => thing with { From = Mirrored(thing.From), To = Mirrored(thing.To) })],
        };
    }

    private static Gen<double?> Height(double from, double to) =>
        Gen.Select(Gen.Bool, Gen.Double[from, to], (stated, value) => stated ? value : (double?)null);

    /// <summary>Opens as far around stock of this radius, and to that same width around all other stock.</summary>
    private static Gripper? OpensTo(Gripper? gripper, double radius) =>
        gripper is null ? null : gripper with { OpenByMetres = null, OpenToMetres = gripper.Open(2 * radius) };

    private static PlanVector Mirrored(PlanVector place) => new(-place.U, place.V);

    private static Locator Mirrored(Locator locator) => locator.Kind == LocatorKind.Pin
        ? Locator.Pin(Mirrored(locator.Point), locator.RadiusMetres)
        : Face(locator, Mirrored(locator.Point), Math.PI - Math.Atan2(locator.Normal.V, locator.Normal.U));

    private static Locator Shifted(Locator locator, PlanVector by) => locator.Kind == LocatorKind.Pin
        ? Locator.Pin(locator.Point + by, locator.RadiusMetres)
        : Face(locator, locator.Point + by, Math.Atan2(locator.Normal.V, locator.Normal.U));

    private static Locator Face(Locator like, PlanVector point, double normal) => Locator.Face(point, normal, like.FromMetres, like.ToMetres);

    /// <summary>The nest with faces that end, since a face without an end cuts through all neighbours.</summary>
    private static Nest Faced(Nest nest) => new(Faced(nest.First), Faced(nest.Second));

    private static Locator Faced(Locator locator) => locator.Kind == LocatorKind.Pin
        ? locator
        : Locator.Face(locator.Point, Math.Atan2(locator.Normal.V, locator.Normal.U), -0.07, 0.07);
}
