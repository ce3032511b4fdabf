using Stockseat.Seating.Envelopes;
using Stockseat.Sheets.Svg;

namespace Stockseat.Sheets.Drawings;

/// <summary>Finds room for the number at the tight spot.</summary>
internal static class LabelRoom
{
    public const double Size = 4;

    private const double Clearance = 1.2;

    /// <summary>The free place nearest to a ring; when none is free, the place that covers the least.</summary>
    /// <param name="drawn">What is drawn.</param>
    /// <param name="view">Where.</param>
    /// <param name="middle">The ring's middle.</param>
    /// <param name="radius">The ring's radius, in millimetres.</param>
    /// <param name="width">How wide the text is, in millimetres.</param>
    /// <returns>The text's box, and where the line to it leaves the ring.</returns>
    public static (Box Place, Point Foot) Beside(DrawnPlan drawn, PlanView view, Point middle, double radius, double width)
    {
        var cross = view.Back(new(1.5, 0)).U - view.Back(new(0, 0)).U;
        var lines = Drawn(drawn).Concat(drawn.All.Where(d => d.Stock is not null).Select(d => Shape.Disc(default, d.Stock!.Value.From, cross)))
            .Concat(Names(drawn, view)).ToList();
        (Box Place, Point Foot, double Cost) best = (default, default, double.PositiveInfinity);
        foreach (var distance in new[] { 3.0, 8, 14, 22 })
        {
            for (var degrees = 0; degrees < 360; degrees += 15)
            {
                var (sin, cos) = Math.SinCos(degrees * Math.PI / 180);
                var foot = new Point(middle.X + (radius * cos), middle.Y - (radius * sin));
                var near = new Point(middle.X + ((radius + distance) * cos), middle.Y - ((radius + distance) * sin));
                var place = new Box(near.X - (width * (1 - cos) / 2), near.Y - ((Size + 1) * (1 + sin) / 2), width, Size + 1);
                var cost = view.Window.Has(new(place.X - 1, place.Y)) && view.Window.Has(new(place.Right + 1, place.Bottom))
                    ? lines.Sum(shape => Over(view, place, shape)) + (distance / 10)
                    : 1000 + degrees;
                if (cost < best.Cost)
                {
                    best = (place, foot, cost);
                }
            }
        }

        return (best.Place, best.Foot);
    }

    /// <summary>How much of a box covers a shape's outline or its inside; the inside of stock counts as free paper.</summary>
    private static double Over(PlanView view, Box place, Shape shape)
    {
        var over = 0;
        for (var i = 0; i <= 8; i++)
        {
            for (var j = 0; j <= 2; j++)
            {
                var spot = Shape.Disc(default, view.Back(new(place.X + (place.Width * i / 8), place.Y + (place.Height * j / 2))), 0);
                var (mine, theirs) = Nearest.Points(spot, shape with { HalfWidthMetres = shape.IsBox ? shape.HalfWidthMetres : 0 });
                var away = view.Of((theirs - mine).Length) - (shape.IsBox ? 0 : view.Of(shape.HalfWidthMetres));
                var hit = shape.Party.Kind == PartyKind.Stock ? Math.Abs(away) < Clearance : away < Clearance;
                over += hit ? 1 : 0;
            }
        }

        return over;
    }

    /// <summary>The names of jaws and pins, each as a horizontal capsule.</summary>
    private static IEnumerable<Shape> Names(DrawnPlan drawn, PlanView view)
    {
        var (first, second) = PlanShapes.Locators(drawn.Plan);
        var jaws = PlanShapes.Gripper(drawn.Plan, drawn.Worked.Metres, open: true).Where(s => s.IsBox)
            .Select(jaw => PartMarks.JawName(jaw, view, jaw.Party == drawn.Worked.Tightest?.Mine));
        var pins = new[] { first, second }.Where(s => s.Party.Kind == PartyKind.Pin).Select(pin => PartMarks.PinName(pin, view))
            .Select(p => new Point(p.X, p.Y - 1));
        return jaws.Concat(pins).Select(
            at => Shape.Capsule(default, view.Back(new(at.X - 4, at.Y)), view.Back(new(at.X + 4, at.Y)), (Size - 2) / view.Scale.PerMetre));
    }

    private static IEnumerable<Shape> Drawn(DrawnPlan drawn)
    {
        var (first, second) = PlanShapes.Locators(drawn.Plan);
        var near = DrawnParts.Neighbours(drawn).Take(8).SelectMany(
            n => new[] { DrawnParts.NeighbourStock(drawn)?.Moved(n.Offset), first.Moved(n.Offset), second.Moved(n.Offset) });
        return drawn.All.Select(d => d.Stock).Concat(near).OfType<Shape>()
            .Concat([first, second])
            .Concat(PlanShapes.Gripper(drawn.Plan, drawn.Worked.Metres, open: false).Where(s => s.IsBox))
            .Concat(PlanShapes.Gripper(drawn.Plan, drawn.Worked.Metres, open: true).Where(s => s.IsBox))
            .Concat(Enumerable.Range(1, drawn.Plan.Obstacles.Count).Select(n => DrawnParts.Obstacle(drawn, n)));
    }
}
