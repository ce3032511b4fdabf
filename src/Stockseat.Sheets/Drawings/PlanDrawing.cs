using System.Globalization;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Quantities;
using Stockseat.Sheets.Svg;

namespace Stockseat.Sheets.Drawings;

/// <summary>The plan of a nest to scale: u to the right, the seat axis v up.</summary>
public static class PlanDrawing
{
    private const double Small = 3;

    private const double Fine = 2.6;

    /// <summary>Room above the window for the words and the axes of the plan; for the base axes too.</summary>
    private const double Told = 12;

    private const double ToldWithBase = 15;

    /// <summary>Room to the right of the words for the axes of the plan, and for the base axes.</summary>
    private const double AxesRoom = 25;

    private const double BaseRoom = 24;

    private const double Foot = 9;

    private const double KeyWidth = 46;

    /// <summary>A drawing of its own, as SVG.</summary>
    /// <param name="drawn">What is drawn.</param>
    /// <param name="widthMillimetres">The paper's width, 100 or more.</param>
    /// <param name="heightMillimetres">The paper's height, 100 or more.</param>
    /// <param name="part">Title and description on the page that contains it; null: it is a document of its own.</param>
    public static string Draw(DrawnPlan drawn, double widthMillimetres = 190, double heightMillimetres = 150, PagePart? part = null)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(widthMillimetres, 100);
        ArgumentOutOfRangeException.ThrowIfLessThan(heightMillimetres, 100);
        var key = 6 * Math.Ceiling((drawn.Asked.Count + 1.0) / InARow(widthMillimetres - 6));
        if (part is null)
        {
            return SvgWriter.Document("Plan of a nest", widthMillimetres, heightMillimetres, All);
        }

        var inside = new SvgWriter();
        All(inside);
        return inside.Inside(part, widthMillimetres, heightMillimetres);

        void All(SvgWriter svg)
        {
            Draw(svg, drawn, new(3, 2, widthMillimetres - 6, heightMillimetres - key - 4));
            Key(svg, drawn, new(3, heightMillimetres - key, widthMillimetres - 6, key));
        }
    }

    /// <summary>Draws it into a part of a page: the words on the tight spot, the window, the scale.</summary>
    /// <param name="svg">What it is drawn with.</param>
    /// <param name="drawn">What is drawn.</param>
    /// <param name="box">The part of the page.</param>
    /// <param name="above">How much room the axes have above the box, at its right end, in millimetres.</param>
    internal static Scale Draw(SvgWriter svg, DrawnPlan drawn, Box box, double above = 0)
    {
        var (told, axes) = drawn.Frame is null ? (Told, AxesRoom) : (Math.Max(ToldWithBase, (2 * BaseAxes.Reach) + 1 - above), AxesRoom + BaseRoom);
        var middle = box.Y + told - 1.5 - (drawn.Frame is null ? 0 : BaseAxes.Reach - 1);
        var window = new Box(box.X, box.Y + told, box.Width, box.Height - told - Foot);
        var tight = TightSpot.Of(drawn);
        var view = PlanView.Of(drawn, tight, window);
        svg.Window(window, () =>
        {
            svg.Group("neighbours", () => Neighbours(svg, drawn, view));
            svg.Group("obstacles", () => Obstacles(svg, drawn, view));
            svg.Group("locators", () => PartMarks.Locators(svg, drawn.Plan, view, default, own: true));
            svg.Group("gripper", () => Gripper(svg, drawn, view));
            svg.Group("stock", () => Stock(svg, drawn, view));
            if (tight is not null)
            {
                svg.Group("tight", () => tight.Draw(svg, drawn, view));
            }
        });
        svg.Rectangle(window, new(0.3));
        svg.Group("told", () => Tell(svg, drawn, tight, box with { Width = box.Width - axes }));
        svg.Group("axes", () => Axes(svg, new(box.Right - axes + 4, middle + (drawn.Frame is null ? 0 : 3))));
        if (drawn.Frame is { } frame)
        {
            svg.Group("base", () => BaseAxes.Draw(svg, frame, new(box.Right - (BaseRoom / 2) + 1, middle)));
        }

        svg.Group("scale", () => ScaleBar(svg, view.Scale, drawn.Unit, new(box.X, window.Bottom, box.Width, Foot)));
        return view.Scale;
    }

    /// <summary>A sample of a line and its meaning.</summary>
    internal static void Sample(SvgWriter svg, Point at, double length, DrawnDiameter diameter) =>
        svg.Line(at, new(at.X + length, at.Y), PartMarks.Stock(diameter));

    private static void Tell(SvgWriter svg, DrawnPlan drawn, TightSpot? tight, Box box)
    {
        var worked = $"{drawn.Worked.Key}, {drawn.Unit.Text(drawn.Worked.Metres)}";
        var (head, said) = (drawn.Worked.Stock, drawn.Worked.Tightest) switch
        {
            (null, _) => ($"Not even the taught diameter of {drawn.Unit.Text(drawn.Worked.Metres)} has a seat", ""),
            (_, null) => ($"At {worked}: no gap", "the revision states nothing beside the stock in this nest"),
            (_, { } gap) => ($"Tight spot at {worked}{(tight is null ? ", along w, not in this plan" : "")}:", TightSpot.Said(drawn.Plan, gap, drawn.Unit)),
        };
        svg.Text(new(box.X, box.Y + 4), SvgWriter.Fitted(head, 3.4, box.Width), 3.4);
        var size = Math.Clamp(4 * box.Width / Math.Max(1, SvgWriter.WidthOf(said, 4, bold: true)), 2.6, 4);
        svg.Text(new(box.X, box.Y + 9.3), SvgWriter.Fitted(said, size, box.Width, bold: true), size, bold: true);
        if (drawn.Frame is not null)
        {
            svg.Text(new(box.X, box.Y + 13.6), SvgWriter.Fitted(BaseAxes.Meaning, Fine, box.Width), Fine);
        }
    }

    private static void Neighbours(SvgWriter svg, DrawnPlan drawn, PlanView view)
    {
        var stock = DrawnParts.NeighbourStock(drawn);
        foreach (var (column, row, offset) in DrawnParts.Neighbours(drawn))
        {
            PartMarks.Locators(svg, drawn.Plan, view, offset, own: false);
            if (stock is not { } disc)
            {
                continue;
            }

            var (at, radius) = (view.At(disc.From + offset), view.Of(disc.HalfWidthMetres));
            if (view.Window.Meets(at, radius))
            {
                svg.Circle(at, radius, new(0.2));
            }

            var name = string.Create(CultureInfo.InvariantCulture, $"nest {column},{row}");
            var half = SvgWriter.WidthOf(name, Small) / 2;
            if (half < 1.3 * radius && view.Window.Has(new(at.X - half, at.Y - 3)) && view.Window.Has(new(at.X + half, at.Y + 3)))
            {
                svg.Text(new(at.X, at.Y + 1), name, Small, "middle", halo: true);
            }
        }
    }

    private static void Obstacles(SvgWriter svg, DrawnPlan drawn, PlanView view)
    {
        for (var number = 1; number <= drawn.Plan.Obstacles.Count; number++)
        {
            PartMarks.Obstacle(svg, DrawnParts.Obstacle(drawn, number), drawn.Plan.Obstacles[number - 1].Name, view);
        }
    }

    private static void Stock(SvgWriter svg, DrawnPlan drawn, PlanView view)
    {
        var placed = new List<Point>();
        var jaws = PlanShapes.Gripper(drawn.Plan, drawn.Worked.Metres, open: false).Concat(PlanShapes.Gripper(drawn.Plan, drawn.Worked.Metres, open: true))
            .Where(s => s.IsBox).ToList();
        foreach (var diameter in drawn.All.Where(d => d.Stock is not null))
        {
            var disc = diameter.Stock!.Value;
            var (at, radius) = (view.At(disc.From), view.Of(disc.HalfWidthMetres));
            svg.Circle(at, radius, PartMarks.Stock(diameter));
            svg.Line(new(at.X - 1.5, at.Y), new(at.X + 1.5, at.Y), new(0.25));
            svg.Line(new(at.X, at.Y - 1.5), new(at.X, at.Y + 1.5), new(0.25));
            var label = PartMarks.FreePlace(view, disc, jaws, placed);
            placed.Add(label);
            svg.Text(new(label.X, label.Y + 1.3), diameter.Key, 3.8, "middle", bold: true, halo: true);
        }
    }

    private static void Gripper(SvgWriter svg, DrawnPlan drawn, PlanView view)
    {
        foreach (var open in new[] { false, true })
        {
            foreach (var part in PlanShapes.Gripper(drawn.Plan, drawn.Worked.Metres, open))
            {
                PartMarks.Gripper(svg, part, view, open, part.Party == drawn.Worked.Tightest?.Mine);
            }
        }
    }

    private static void Axes(SvgWriter svg, Point origin)
    {
        var (v, u) = (new Point(origin.X, origin.Y - 10), new Point(origin.X + 14, origin.Y));
        svg.Line(origin, v, new(0.5));
        svg.Head(v, origin, 2.5);
        svg.Line(origin, u, new(0.5));
        svg.Head(u, origin, 2.5);
        svg.Text(new(v.X + 1.8, v.Y + 2.4), "v, seat axis", Small);
        svg.Text(new(u.X + 1.5, u.Y + 0.8), "u", Small);
    }

    /// <summary>A bar of a round length to measure with a rule: it shows whether the print was fitted to the page.</summary>
    private static void ScaleBar(SvgWriter svg, Scale scale, LengthUnit unit, Box box)
    {
        var real = unit.Metres(Scale.RoundBelow(unit.Of(55 / scale.PerMetre)));
        var length = real * scale.PerMetre;
        var y = box.Y + 4.5;
        svg.Line(new(box.X, y), new(box.X + length, y), new(0.6));
        for (var i = 0; i <= 5; i++)
        {
            var x = box.X + (length * i / 5);
            svg.Line(new(x, y - (i % 5 == 0 ? 2 : 1.2)), new(x, y), new(0.4));
        }

        svg.Text(new(box.X, box.Bottom - 0.5), "0", Small);
        svg.Text(new(box.X + length, box.Bottom - 0.5), unit.Text(real), Small, "middle");
        var said = $"Scale {scale} if this bar is {OnPaper(length, unit)} long on the paper; print at 100 %.";
        var x0 = box.X + length + 9;
        svg.Text(new(x0, box.Y + 5), said, Math.Min(Small, Small * (box.Right - x0) / SvgWriter.WidthOf(said, Small)));
    }

    /// <summary>A length of the paper, to lay a rule on.</summary>
    private static string OnPaper(double millimetres, LengthUnit unit) => $"{unit.Short(millimetres / 1000, -2)} {unit}";

    private static int InARow(double width) => (int)(width / KeyWidth);

    private static void Key(SvgWriter svg, DrawnPlan drawn, Box box)
    {
        var (i, row) = (0, InARow(box.Width));
        foreach (var diameter in drawn.All)
        {
            var at = new Point(box.X + (box.Width / row * (i % row)), box.Y + 3 + (6 * (i / row)));
            Sample(svg, new(at.X, at.Y - 1), 12, diameter);
            svg.Text(
                new(at.X + 13.5, at.Y),
                $"{diameter.Key} {drawn.Unit.Text(diameter.Metres)}{(diameter.Key == "T" ? ", taught" : diameter.Stock is null ? ", no seat" : "")}", Small);
            i++;
        }
    }
}
