using System.Globalization;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;
using Stockseat.Sheets.Svg;

namespace Stockseat.Sheets.Drawings;

/// <summary>How each part of a plan is drawn. Each can be recognised without colour: by width, pattern, hatching and words.</summary>
internal static class PartMarks
{
    private const double HatchStep = 1.3;

    private static readonly double Diagonal = Math.Sqrt(0.5);

    public static SvgWriter.Pen Stock(DrawnDiameter diameter) => new(diameter.Key == "T" ? 0.3 : diameter.Key == "A" ? 0.7 : 0.5, diameter.Dashes);

    /// <summary>Both locators of a nest: hatched where they are solid; thinner at a neighbour.</summary>
    public static void Locators(SvgWriter svg, Plan plan, PlanView view, PlanVector offset, bool own)
    {
        var (first, second) = PlanShapes.Locators(plan);
        foreach (var (shape, locator) in new[] { (first.Moved(offset), plan.Nest.First), (second.Moved(offset), plan.Nest.Second) })
        {
            if (locator.Kind == LocatorKind.Pin)
            {
                Pin(svg, shape, view, own);
            }
            else
            {
                Face(svg, shape, locator.Normal, view, own);
            }
        }
    }

    /// <summary>A jaw or the palm.</summary>
    /// <param name="svg">What is drawn into.</param>
    /// <param name="part">The part.</param>
    /// <param name="view">Where.</param>
    /// <param name="open">Whether the jaws are open: open jaws carry their names.</param>
    /// <param name="aside">Whether the name is beside the jaw, because the tight spot is drawn at the jaw.</param>
    public static void Gripper(SvgWriter svg, in Shape part, PlanView view, bool open, bool aside)
    {
        var pen = open ? new SvgWriter.Pen(0.3, "2 1") : new SvgWriter.Pen(0.5, Fill: "#ddd");
        if (!part.IsBox)
        {
            // The palm does not move.
            if (!open)
            {
                svg.Circle(view.At(part.From), view.Of(part.HalfWidthMetres), new(0.3, "4 1 1 1 1 1"));
                svg.Text(Plus(view.At(part.From), new(0, -view.Of(part.HalfWidthMetres) - 1)), "palm", 3, "middle", halo: true);
            }

            return;
        }

        svg.Polygon(Nearest.Corners(part).Select(view.At), pen);
        if (open)
        {
            var at = JawName(part, view, aside);
            svg.Text(new(at.X, at.Y + 1.2), string.Create(CultureInfo.InvariantCulture, $"jaw {part.Party.Number}"), 3.4, "middle", halo: true);
        }
    }

    /// <summary>The middle of a jaw's name: outward of it, or beside it.</summary>
    public static Point JawName(in Shape jaw, PlanView view, bool aside)
    {
        var outward = 1 / Math.Max((jaw.To - jaw.From).Length, 1e-12) * (jaw.To - jaw.From);
        var side = view.Of(jaw.HalfWidthMetres);
        var turned = outward.Turned;
        return aside
            ? Plus(view.At(jaw.To), new(((side + 7) * turned.U) + (2 * outward.U), -((side + 4) * turned.V) - (2 * outward.V)))
            : Plus(view.At(jaw.To), new(7 * outward.U, -4 * outward.V));
    }

    /// <summary>The middle of the base line of a pin's name, below the pin.</summary>
    public static Point PinName(in Shape pin, PlanView view) => Plus(view.At(pin.From), new(0, view.Of(pin.HalfWidthMetres) + 4));

    public static void Obstacle(SvgWriter svg, in Shape shape, string name, PlanView view)
    {
        var (from, to, radius) = (view.At(shape.From), view.At(shape.To), view.Of(shape.HalfWidthMetres));
        var along = shape.To - shape.From;
        if (along.Length == 0)
        {
            Pin(svg, shape, view, own: true);
        }
        else
        {
            var (dx, dy) = (-along.V / along.Length * radius, -along.U / along.Length * radius);
            Cut(svg, view.Window, new(from.X + dx, from.Y + dy), new(to.X + dx, to.Y + dy), new(0.4));
            Cut(svg, view.Window, new(from.X - dx, from.Y - dy), new(to.X - dx, to.Y - dy), new(0.4));
            Cut(svg, view.Window, from, to, new(Math.Max(0.2, radius / 3), "0.6 1.4"));
            foreach (var end in new[] { from, to }.Where(e => view.Window.Meets(e, radius)))
            {
                svg.Circle(end, radius, new(0.4));
            }
        }

        if (view.Window.Has(from))
        {
            svg.Text(new(from.X, from.Y - radius - 1), SvgWriter.Fitted(name, 3, 40), 3, "middle", halo: true);
        }
    }

    /// <summary>A place on a circle for its letter: away from jaws and from other letters.</summary>
    public static Point FreePlace(PlanView view, Shape disc, IReadOnlyList<Shape> jaws, IReadOnlyList<Point> placed)
    {
        (Point At, double Room) best = (default, double.NegativeInfinity);
        for (var degrees = 105; degrees < 465; degrees += 6)
        {
            var (sin, cos) = Math.SinCos(degrees * Math.PI / 180);
            var place = disc.From + (disc.HalfWidthMetres * new PlanVector(cos, sin));
            var at = view.At(place);
            if (!view.Window.Has(at))
            {
                continue;
            }

            var spot = Shape.Disc(default, place, 0);
            var room = jaws.Select(jaw => { var (a, b) = Nearest.Points(spot, jaw); return view.Of((b - a).Length); })
                .Concat(placed.Select(p => Math.Sqrt(((p.X - at.X) * (p.X - at.X)) + ((p.Y - at.Y) * (p.Y - at.Y))))).DefaultIfEmpty(10).Min();
            if (room >= 5)
            {
                return at;
            }

            if (room > best.Room)
            {
                best = (at, room);
            }
        }

        return double.IsFinite(best.Room) ? best.At : view.At(disc.From);
    }

    private static void Pin(SvgWriter svg, in Shape pin, PlanView view, bool own)
    {
        var (at, radius) = (view.At(pin.From), view.Of(pin.HalfWidthMetres));
        if (!view.Window.Meets(at, radius))
        {
            return;
        }

        svg.Circle(at, radius, new(own ? 0.5 : 0.2, Fill: "#fff"));
        var step = Math.Max(HatchStep, radius / 12);
        for (var d = -Math.Floor(radius / step) * step; d <= radius; d += step)
        {
            var half = Math.Sqrt(Math.Max(0, (radius * radius) - (d * d)));
            Cut(
                svg, view.Window, new(at.X + ((d - half) * Diagonal), at.Y + ((d + half) * Diagonal)),
                new(at.X + ((d + half) * Diagonal), at.Y + ((d - half) * Diagonal)), new(own ? 0.25 : 0.12));
        }

        if (own && pin.Party.Kind == PartyKind.Pin)
        {
            svg.Text(PinName(pin, view), string.Create(CultureInfo.InvariantCulture, $"pin {pin.Party.Number}"), 3, "middle", halo: true);
        }
    }

    private static void Face(SvgWriter svg, in Shape face, PlanVector normal, PlanView view, bool own)
    {
        if (view.Window.Clip(view.At(face.From), view.At(face.To)) is not var (from, to))
        {
            return;
        }

        svg.Line(from, to, new(own ? 0.7 : 0.25));
        var (dx, dy) = (to.X - from.X, to.Y - from.Y);
        var length = Math.Sqrt((dx * dx) + (dy * dy));
        var (backX, backY) = (-normal.U, normal.V);
        var deep = own ? 1.8 : 1;
        for (var d = HatchStep / 2; d < length; d += HatchStep)
        {
            var foot = new Point(from.X + (dx / length * d), from.Y + (dy / length * d));
            Cut(svg, view.Window, foot, Plus(foot, new(deep * (backX - (dx / length)), deep * (backY - (dy / length)))), new(own ? 0.25 : 0.12));
        }

        if (own)
        {
            var middle = new Point((from.X + to.X) / 2, (from.Y + to.Y) / 2);
            svg.Text(
                Plus(middle, new(8 * backX, (5 * backY) + 1)), string.Create(CultureInfo.InvariantCulture, $"face {face.Party.Number}"), 3, "middle",
                halo: true);
        }
    }

    private static void Cut(SvgWriter svg, Box window, Point from, Point to, SvgWriter.Pen pen)
    {
        if (window.Clip(from, to) is var (a, b))
        {
            svg.Line(a, b, pen);
        }
    }

    private static Point Plus(Point a, Point b) => new(a.X + b.X, a.Y + b.Y);
}
