using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Quantities;
using Stockseat.Seating.Seats;
using Stockseat.Sheets.Svg;

namespace Stockseat.Sheets.Drawings;

/// <summary>A small drawing of one nest: the stock at the taught diameter, stock of another diameter, and the shift between their centres.</summary>
public static class ShiftFigure
{
    private const double Width = 232;

    private const double Height = 126;

    private const double Words = 109;

    private const double Size = 5;

    /// <summary>The figure as SVG; null when the diameter finds no seat.</summary>
    /// <param name="revision">The revision.</param>
    /// <param name="place">Whether it is for a place; else for a pick.</param>
    /// <param name="diameterMetres">The other diameter, in metres, above 0.</param>
    /// <param name="unit">The unit of lengths.</param>
    public static string? Draw(Revision revision, bool place, double diameterMetres, LengthUnit unit)
    {
        var drawn = DrawnPlan.Of(revision.PlanFor(place), [diameterMetres]);
        if (SeatSolver.TryClear(drawn.Plan.Nest, diameterMetres / 2, drawn.Plan.StandOffMetres, out var clear) != SeatFault.None)
        {
            return null;
        }

        var view = PlanView.OfNest(drawn, new(2, 2, Width - Words - 4, Height - 4));
        return SvgWriter.Document($"A nest of {revision.Fixture} and its shift", Width, Height, svg =>
        {
            svg.Window(view.Window, () =>
            {
                PartMarks.Locators(svg, drawn.Plan, view, default, own: true);
                Stock(svg, view, drawn.Plan.Taught.Centre, drawn.Plan.TaughtDiameterMetres, PartMarks.Stock(drawn.Taught));
                Stock(svg, view, clear.Centre, diameterMetres, new(0.7));
            });
            Arrow(svg, view.At(drawn.Plan.Taught.Centre), view.At(clear.Centre));
            Say(svg, drawn, diameterMetres, clear.Centre - drawn.Plan.Taught.Centre, unit);
        });
    }

    private static void Stock(SvgWriter svg, PlanView view, PlanVector centre, double diameterMetres, SvgWriter.Pen pen)
    {
        var at = view.At(centre);
        svg.Circle(at, view.Of(diameterMetres / 2), pen);
        svg.Line(new(at.X - 6, at.Y), new(at.X + 6, at.Y), new(0.25, pen.Dashes));
    }

    private static void Arrow(SvgWriter svg, Point from, Point to)
    {
        svg.Line(from, to, new(1));
        svg.Head(to, from, 3.5);
    }

    private static void Say(SvgWriter svg, DrawnPlan drawn, double diameterMetres, PlanVector shift, LengthUnit unit)
    {
        const double Left = Width - Words;
        svg.Line(new(Left, 18), new(Left + 14, 18), new(0.7));
        svg.Text(new(Left + 18, 19.6), $"stock of {unit.Text(diameterMetres)}", Size);
        svg.Line(new(Left, 28), new(Left + 14, 28), PartMarks.Stock(drawn.Taught));
        svg.Text(new(Left + 18, 29.6), $"taught with {unit.Text(drawn.Plan.TaughtDiameterMetres)}", Size);
        Arrow(svg, new(Left + 7, 43), new(Left + 7, 34));
        svg.Text(new(Left + 18, 40), $"shift: {unit.Signed(shift.V)} {unit} along v,", Size, bold: true);
        var across = unit.Signed(shift.U);
        svg.Text(new(Left + 18, 47), across.AsSpan().ContainsAnyInRange('1', '9') ? $"{across} {unit} along u" : "none along u", Size, bold: true);
        Axes(svg, new(Left + 7, 92));
    }

    private static void Axes(SvgWriter svg, Point origin)
    {
        var (v, u) = (new Point(origin.X, origin.Y - 26), new Point(origin.X + 28, origin.Y));
        foreach (var tip in new[] { v, u })
        {
            svg.Line(origin, tip, new(0.5));
            svg.Head(tip, origin, 3);
        }

        svg.Text(new(v.X + 4, v.Y + 4), "v: the seat axis; rows count along it,", Size);
        svg.Text(new(v.X + 4, v.Y + 10.5), "and thicker stock moves along it", Size);
        svg.Text(new(u.X + 3, u.Y + 1.6), "u: columns count along it", Size);
        svg.Text(new(origin.X - 7, origin.Y + 13), "w: the normal, which points at you", Size);
        svg.Text(new(origin.X - 7, origin.Y + 20), "u = seat axis \u00d7 normal", Size);
    }
}
