using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Quantities;
using Stockseat.Sheets.Svg;

namespace Stockseat.Sheets.Drawings;

/// <summary>Where the smallest gap is, at the diameter around which the jaws are drawn.</summary>
/// <param name="Gap">The gap.</param>
/// <param name="Mine">The nearest point of the one part.</param>
/// <param name="Theirs">The nearest point of the other part.</param>
internal sealed record TightSpot(GapReading Gap, PlanVector Mine, PlanVector Theirs)
{
    private const double Ring = 4.5;

    /// <summary>Null when there is no gap, or none in the plan.</summary>
    public static TightSpot? Of(DrawnPlan drawn)
    {
        if (drawn.Worked.Tightest is not { } gap
            || DrawnParts.Find(drawn, gap.Mine, gap.Jaws) is not { } mine
            || DrawnParts.Find(drawn, gap.Theirs, gap.Jaws) is not { } theirs)
        {
            return null;
        }

        var (a, b) = Nearest.Points(mine, theirs);
        return new(gap, a, b);
    }

    /// <summary>"0.8 mm, wanted 2 mm: jaw 2 (open) to pin 1 of nest 1,0".</summary>
    public static string Said(Plan plan, in GapReading gap, LengthUnit unit)
    {
        var wanted = plan.GapMetres is { } w ? $"wanted {unit.Text(w)}" : "no wanted gap stated";
        return $"{unit.Gap(gap.Metres)}, {wanted}: {Wording.Of(gap, plan.Obstacles)}";
    }

    /// <summary>A line between the two points with heads, a ring around it where it is short, and its number where there is room.</summary>
    public void Draw(SvgWriter svg, DrawnPlan drawn, PlanView view)
    {
        var (a, b) = (view.At(Mine), view.At(Theirs));
        var middle = new Point((a.X + b.X) / 2, (a.Y + b.Y) / 2);
        var (dx, dy) = (b.X - a.X, b.Y - a.Y);
        var length = Math.Sqrt((dx * dx) + (dy * dy));
        var wide = length > 2 * Ring;
        var radius = wide ? 0.5 : Ring;
        if (length > 1e-6)
        {
            svg.Line(a, b, new(0.5));
            foreach (var (tip, side) in new[] { (a, -1.0), (b, 1.0) })
            {
                // Outside a narrow gap, inside a wide one.
                var from = wide ? middle : new Point(tip.X + (side * Ring / length * dx), tip.Y + (side * Ring / length * dy));
                svg.Head(tip, from, 2);
                if (!wide && view.Window.Clip(from, tip) is var (begin, end))
                {
                    svg.Line(begin, end, new(0.3));
                }
            }
        }

        if (!wide)
        {
            svg.Circle(middle, radius, new(0.6));
        }

        var text = drawn.Unit.Gap(Gap.Metres);
        var (place, foot) = LabelRoom.Beside(drawn, view, middle, radius, SvgWriter.WidthOf(text, LabelRoom.Size, bold: true));
        svg.Line(foot, new(Math.Clamp(foot.X, place.X, place.Right), Math.Clamp(foot.Y, place.Y, place.Bottom)), new(0.3));
        svg.Text(new(place.X + (place.Width / 2), place.Bottom - 1), text, LabelRoom.Size, "middle", bold: true, halo: true);
    }
}
