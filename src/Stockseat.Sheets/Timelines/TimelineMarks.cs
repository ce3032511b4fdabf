using Stockseat.Sheets.Svg;

namespace Stockseat.Sheets.Timelines;

/// <summary>Draws the marks of a timeline.</summary>
internal static class TimelineMarks
{
    /// <summary>Half a mark's width, in millimetres.</summary>
    public const double Half = 1.15;

    private static readonly SvgWriter.Pen Solid = new(0.2, Fill: "#000");

    private static readonly SvgWriter.Pen Open = new(0.45, Fill: "#fff");

    private static readonly SvgWriter.Pen Stroke = new(0.6);

    public static void Draw(SvgWriter svg, MarkShape shape, Point at)
    {
        switch (shape)
        {
            case MarkShape.Disc: svg.Circle(at, Half, Solid); break;
            case MarkShape.Ring: svg.Circle(at, Half, new(0.6, Fill: "#fff")); break;
            case MarkShape.Triangle: svg.Polygon(Points(at, (0, -1.1), (1.1, 0.9), (-1.1, 0.9)), Solid); break;
            case MarkShape.Pointer: svg.Polygon(Points(at, (-0.9, -1.1), (1.1, 0), (-0.9, 1.1)), Solid); break;
            case MarkShape.Square: svg.Polygon(Points(at, (-0.95, -0.95), (0.95, -0.95), (0.95, 0.95), (-0.95, 0.95)), Solid); break;
            case MarkShape.Frame: svg.Polygon(Points(at, (-0.95, -0.95), (0.95, -0.95), (0.95, 0.95), (-0.95, 0.95)), Open); break;
            case MarkShape.Diamond: svg.Polygon(Points(at, (0, -1.25), (1.25, 0), (0, 1.25), (-1.25, 0)), Open); break;
            case MarkShape.Tick: Stroked(svg, at, (-1, 0.1), (-0.2, 0.9), (1, -0.9)); break;
            case MarkShape.OpenTriangle: svg.Polygon(Points(at, (0, -1.1), (1.1, 0.9), (-1.1, 0.9)), Open); break;
            case MarkShape.Page:
                svg.Polygon(Points(at, (-0.8, -1.1), (0.3, -1.1), (0.8, -0.6), (0.8, 1.1), (-0.8, 1.1)), Open);
                Stroked(svg, at, (0.3, -1.1), (0.3, -0.6), (0.8, -0.6));
                break;
            case MarkShape.DoubleTick:
                Stroked(svg, at, (-1.1, 0.1), (-0.5, 0.9), (0.4, -0.9));
                Stroked(svg, at, (0, 0.6), (0.2, 0.9), (1.1, -0.9));
                break;
            case MarkShape.Zigzag: Stroked(svg, at, (-0.3, -1.2), (0.5, -0.5), (-0.5, 0.3), (0.3, 1.2)); break;
            case MarkShape.Opening: Stroked(svg, at, (0.7, -1), (-0.4, -1), (-0.4, 1), (0.7, 1)); break;
            case MarkShape.Closing: Stroked(svg, at, (-0.7, -1), (0.4, -1), (0.4, 1), (-0.7, 1)); break;
            case MarkShape.Bar: Stroked(svg, at, (0, -1.1), (0, 1.1)); break;
            case MarkShape.Corner: Stroked(svg, at, (-0.7, -1.1), (-0.7, 1), (0.8, 1)); break;
            case MarkShape.Cross: Cross(svg, at, 0.9); break;
            case MarkShape.Plus: Upright(svg, at); break;
            case MarkShape.DoubleBar:
                Stroked(svg, at, (-0.6, -1.1), (-0.6, 1.1));
                Stroked(svg, at, (0.6, -1.1), (0.6, 1.1));
                break;
            case MarkShape.Star:
                Cross(svg, at, 0.85);
                Stroked(svg, at, (0, -1.2), (0, 1.2));
                break;
            case MarkShape.CrossedSquare:
                svg.Polygon(Points(at, (-1, -1), (1, -1), (1, 1), (-1, 1)), Open);
                Cross(svg, at, 0.7);
                break;
            default: svg.Text(new(at.X, at.Y + 1.1), "?", 3.2, "middle", bold: true); break;
        }
    }

    private static void Cross(SvgWriter svg, Point at, double reach)
    {
        Stroked(svg, at, (-reach, -reach), (reach, reach));
        Stroked(svg, at, (-reach, reach), (reach, -reach));
    }

    private static void Upright(SvgWriter svg, Point at)
    {
        Stroked(svg, at, (-1.1, 0), (1.1, 0));
        Stroked(svg, at, (0, -1.1), (0, 1.1));
    }

    private static void Stroked(SvgWriter svg, Point at, params (double X, double Y)[] points) => svg.Polyline(Points(at, points), Stroke);

    private static IEnumerable<Point> Points(Point at, params (double X, double Y)[] points) =>
        points.Select(p => new Point(at.X + (p.X * Half / 1.1), at.Y + (p.Y * Half / 1.1)));
}
