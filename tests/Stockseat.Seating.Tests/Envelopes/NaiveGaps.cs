using NetTopologySuite.Geometries;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;

namespace Stockseat.Seating.Tests.Envelopes;

/// <summary>
/// All gaps of a plan without pruning, by NetTopologySuite's distances between points, lines and polygons, minus the radii. Where the cores overlap, only the
/// sign is known: Deep.
/// </summary>
internal static class NaiveGaps
{
    private static readonly GeometryFactory Factory = new(new PrecisionModel(PrecisionModels.Floating));

    public readonly record struct Reading(GapReading Gap, bool Deep, double Wanted);

    public static List<Reading> At(Plan plan, double diameter)
    {
        var stock = PlanShapes.Stock(plan, diameter)!.Value;
        var wanted = plan.GapMetres ?? 0;
        var mine = new List<(Shape Shape, Jaws Jaws, double? Height)> { (stock, Jaws.None, double.NegativeInfinity) };
        if (plan.StandOffMetres > 0)
        {
            mine.Add((PlanShapes.Gripped(plan, diameter)!.Value, Jaws.Closed, double.NegativeInfinity));
        }

        var own = new List<Reading>();
        foreach (var jaws in plan.Gripper is null ? [] : new[] { Jaws.Closed, Jaws.Open })
        {
            foreach (var shape in PlanShapes.Gripper(plan, diameter, jaws == Jaws.Open))
            {
                var isPalm = shape.Party.Kind == PartyKind.Palm;
                if (isPalm && jaws == Jaws.Open)
                {
                    continue;
                }

                var height = isPalm ? plan.Gripper!.PalmHeightMetres : plan.Gripper!.JawTipHeightMetres;
                mine.Add((shape, jaws, height));
                if (jaws == Jaws.Open)
                {
                    own.Add(Between(shape, stock, jaws, 0));
                }

                if (!(height >= plan.LocatorTopMetres))
                {
                    own.Add(Home(plan.Nest.First, shape, PlanShapes.Locators(plan).First, jaws, wanted));
                    own.Add(Home(plan.Nest.Second, shape, PlanShapes.Locators(plan).Second, jaws, wanted));
                }
            }
        }

        var meets = from theirs in Others(plan, stock, diameter)
                    from part in mine
                    where !(part.Height >= theirs.Top)
                    select Between(part.Shape, theirs.Shape, part.Jaws, wanted);
        return [.. own, .. meets];
    }

    public static bool Holds(Plan plan, double diameter) => NaiveLimits.Hold(plan, diameter)
        && At(plan, diameter).TrueForAll(reading => reading.Gap.Metres >= reading.Wanted - 1e-11);

    private static IEnumerable<(Shape Shape, double? Top)> Others(Plan plan, Shape stock, double diameter)
    {
        var (first, second) = PlanShapes.Locators(plan);
        var other = PlanShapes.Stock(plan, plan.NeighbourDiameterMetres ?? diameter);
        for (var column = -plan.Columns + 1; column < plan.Columns; column++)
        {
            for (var row = -plan.Rows + 1; row < plan.Rows; row++)
            {
                var by = PlanShapes.Offset(plan, column, row);
                if (column != 0 || row != 0)
                {
                    yield return (There(first), plan.LocatorTopMetres);
                    yield return (There(second), plan.LocatorTopMetres);
                    yield return (There(other!.Value), plan.StockLengthMetres);
                }

                for (var i = 0; i < plan.Obstacles.Count && column <= 0 && row <= 0; i++)
                {
                    var thing = plan.Obstacles[i];
                    yield return (There(Shape.Capsule(new(PartyKind.Obstacle, i + 1), thing.From, thing.To, thing.DiameterMetres / 2)), thing.TopMetres);
                }

                Shape There(Shape shape) => shape.Moved(by) with { Party = shape.Party with { Column = column, Row = row } };
            }
        }
    }

    private static Reading Between(Shape mine, Shape theirs, Jaws jaws, double wanted)
    {
        var apart = Core(mine).Distance(Core(theirs));
        var gap = apart - Radius(mine) - Radius(theirs);
        return new(new(mine.Party, theirs.Party, jaws, apart == 0 ? Math.Min(gap, -1e-9) : gap), apart == 0, wanted);
    }

    /// <summary>Behind the face and within its extent: the area that the face's shadow, 50 m deep, cuts out of the part.</summary>
    private static Reading Home(Locator locator, Shape mine, Shape theirs, Jaws jaws, double wanted)
    {
        if (locator.Kind == LocatorKind.Face)
        {
            var deep = -50 * locator.Normal;
            var shadow = Polygon(theirs.From, theirs.To, theirs.To + deep, theirs.From + deep);
            var cut = shadow.Intersection(mine.IsBox ? Core(mine) : Round(mine));
            var behind = cut.Coordinates.Select(at => -PlanVector.Dot(locator.Normal, new PlanVector(at.X, at.Y) - locator.Point)).DefaultIfEmpty(0).Max();
            if (behind > 1e-12)
            {
                return new(new(mine.Party, theirs.Party, jaws, -behind), Deep: !mine.IsBox, wanted);
            }
        }

        return Between(mine, theirs, jaws, wanted);
    }

    private static double Radius(Shape shape) => shape.IsBox ? 0 : shape.HalfWidthMetres;

    private static Geometry Core(Shape shape)
    {
        if (!shape.IsBox)
        {
            return shape.From == shape.To ? Factory.CreatePoint(At(shape.From)) : Factory.CreateLineString([At(shape.From), At(shape.To)]);
        }

        var across = shape.HalfWidthMetres / (shape.To - shape.From).Length * (shape.To - shape.From).Turned;
        return Polygon(shape.From - across, shape.To - across, shape.To + across, shape.From + across);
    }

    private static Polygon Round(Shape disc) => Polygon([.. Enumerable.Range(0, 2000).Select(i => Math.SinCos(i * Math.PI / 1000))
        .Select(at => disc.From + (disc.HalfWidthMetres * new PlanVector(at.Cos, at.Sin)))]);

    private static Polygon Polygon(params PlanVector[] corners) => Factory.CreatePolygon([.. corners.Select(At), At(corners[0])]);

    private static Coordinate At(PlanVector place) => new(place.U, place.V);
}
