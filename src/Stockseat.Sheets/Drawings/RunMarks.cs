using Stockseat.Sheets.Svg;

namespace Stockseat.Sheets.Drawings;

/// <summary>How the values and lines of a run chart look; they differ in shape, so that a print in black shows everything.</summary>
internal static class RunMarks
{
    public static readonly SvgWriter.Pen Centre = new(0.35);

    public static readonly SvgWriter.Pen Control = new(0.35, "3.5 1 0.6 1");

    public static readonly SvgWriter.Pen Limit = new(0.5, "2 1.2");

    public static readonly SvgWriter.Pen Expected = new(0.15, Fill: "#e4e4e4", Colour: "#999");

    public static readonly SvgWriter.Pen Adoption = new(0.7);

    /// <summary>
    /// A value: a ring when it passed, a cross when it was not judged, a black diamond when it missed; a box around it beyond the control limits.
    /// </summary>
    public static void Value(SvgWriter svg, Point at, double radius, bool? passed, bool beyond)
    {
        switch (passed)
        {
            case true:
                svg.Circle(at, radius, new(Math.Min(0.3, radius / 2), Fill: "#fff"));
                break;
            case false:
                var wide = Math.Max(1.1, 1.5 * radius);
                svg.Polygon([new(at.X, at.Y - wide), new(at.X + wide, at.Y), new(at.X, at.Y + wide), new(at.X - wide, at.Y)], new(0.1, Fill: "#000"));
                break;
            default:
                svg.Line(new(at.X - radius, at.Y - radius), new(at.X + radius, at.Y + radius), new(0.3));
                svg.Line(new(at.X - radius, at.Y + radius), new(at.X + radius, at.Y - radius), new(0.3));
                break;
        }

        if (beyond)
        {
            var half = Math.Max(1.6, 1.9 * radius);
            svg.Rectangle(new(at.X - half, at.Y - half, 2 * half, 2 * half), new(0.35));
        }
    }
}
