using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Seats;

namespace Stockseat.Seating.Envelopes;

/// <summary>Where the parts of a plan are at a diameter, as seen from the nest that is worked at.</summary>
public static class PlanShapes
{
    /// <summary>An unlimited face is drawn and judged up to this distance from its point, in metres.</summary>
    public const double FaceReachMetres = 20;

    /// <summary>The stock in a nest; null when it finds no seat.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="diameterMetres">The stock's diameter, in metres.</param>
    public static Shape? Stock(Plan plan, double diameterMetres) => SeatSolver.TrySeat(plan.Nest, diameterMetres / 2, out var seat) == SeatFault.None
        ? Shape.Disc(new(PartyKind.Stock), seat.Centre, diameterMetres / 2)
        : null;

    /// <summary>The stock as it is gripped, off its locators by the stand-off; null when there is no such place.</summary>
    public static Shape? Gripped(Plan plan, double diameterMetres) =>
        SeatSolver.TryClear(plan.Nest, diameterMetres / 2, plan.StandOffMetres, out var clear) == SeatFault.None
        ? Shape.Disc(new(PartyKind.Stock), clear.Centre, diameterMetres / 2)
        : null;

    /// <summary>The two locators of a nest.</summary>
    public static (Shape First, Shape Second) Locators(Plan plan) => (Of(plan.Nest.First, 1), Of(plan.Nest.Second, 2));

    /// <summary>The gripper around stock at the seat centre plus the stand-off; empty when there is no gripper or no such place.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="diameterMetres">The stock's diameter, in metres.</param>
    /// <param name="open">Whether it is open.</param>
    public static IReadOnlyList<Shape> Gripper(Plan plan, double diameterMetres, bool open)
    {
        if (plan.Gripper is not { } gripper
            || SeatSolver.TryClear(plan.Nest, diameterMetres / 2, plan.StandOffMetres, out var clear) != SeatFault.None)
        {
            return [];
        }

        var inner = (open ? gripper.Open(diameterMetres) : diameterMetres) / 2;
        var shapes = new List<Shape>(gripper.Jaws + 1);
        for (var jaw = 1; jaw <= gripper.Jaws; jaw++)
        {
            var (sin, cos) = Math.SinCos(gripper.ClockingRadians + (2 * Math.PI * (jaw - 1) / gripper.Jaws));
            var outward = new PlanVector(cos, sin);
            shapes.Add(Shape.Box(
                new(PartyKind.Jaw, jaw), clear.Centre + (inner * outward), clear.Centre + ((inner + gripper.JawThicknessMetres) * outward),
                gripper.JawWidthMetres));
        }

        if (gripper.PalmDiameterMetres is { } palm)
        {
            shapes.Add(Shape.Disc(new(PartyKind.Palm), clear.Centre, palm / 2));
        }

        return shapes;
    }

    /// <summary>The offset from the nest that is worked at to another nest.</summary>
    public static PlanVector Offset(Plan plan, int column, int row) => (column * plan.ColumnStep) + (row * plan.RowStep);

    private static Shape Of(in Locator locator, int number) => locator.Kind == LocatorKind.Pin
        ? Shape.Disc(new(PartyKind.Pin, number), locator.Point, locator.RadiusMetres)
        : Shape.Capsule(
            new(PartyKind.Face, number),
            locator.Point + (Math.Max(locator.FromMetres, -FaceReachMetres) * locator.Along),
            locator.Point + (Math.Min(locator.ToMetres, FaceReachMetres) * locator.Along), 0);
}
