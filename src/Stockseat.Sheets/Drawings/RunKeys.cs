using System.Globalization;
using Stockseat.Audit.Showing;
using Stockseat.Sheets.Svg;

namespace Stockseat.Sheets.Drawings;

/// <summary>What stands below run charts: their instants, and the meaning of their marks.</summary>
internal static class RunKeys
{
    private const double Small = 3;

    /// <summary>From one line of the legend to the next, in millimetres.</summary>
    private const double LineHeight = 5;

    /// <summary>Room for one instant, in millimetres.</summary>
    private const double InstantRoom = 22;

    /// <summary>Days, with the time of day below, as many as there is room for; the first and the last always.</summary>
    public static void Instants(SvgWriter svg, IReadOnlyList<RunPoint> points, RunPlot plot, Point at, ZonedTimes times)
    {
        var (y, free, last) = (at.Y, double.NegativeInfinity, plot.X(points.Count - 1));
        for (var i = 0; i < points.Count; i++)
        {
            var x = plot.X(i);
            svg.Line(new(x, y), new(x, y + (points.Count > 60 ? 0.8 : 1.2)), new(0.15));
            if (x < free || (i < points.Count - 1 && x > last - InstantRoom))
            {
                continue;
            }

            free = x + InstantRoom;
            var instant = times.In(points[i].At);
            svg.Line(new(x, y), new(x, y + 2), new(0.35));
            svg.Text(new(x, y + 5), instant.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), Small, "middle");
            svg.Text(new(x, y + 8.6), instant.ToString("HH:mm", CultureInfo.InvariantCulture), Small, "middle");
        }

        svg.Text(new(at.X, y + 8.6), SvgWriter.Fitted(times.Name, Small, plot.Left - at.X), Small);
    }

    /// <summary>The meaning of each mark and line, in as many lines as the width needs.</summary>
    public static void Legend(SvgWriter svg, Point at, double width)
    {
        var (x, y) = (at.X, at.Y);
        void Key(Action<Point> sample, double room, string text)
        {
            var all = room + 1.5 + SvgWriter.WidthOf(text, Small);
            if (x > at.X && x + all > at.X + width)
            {
                (x, y) = (at.X, y + LineHeight);
            }

            sample(new(x, y - 1));
            svg.Text(new(x + room + 1.5, y), text, Small);
            x += all + 4;
        }

        void Mark(bool? passed, bool beyond, string text) => Key(p => RunMarks.Value(svg, new(p.X + 2, p.Y), 1.2, passed, beyond), 4, text);
        void Line(SvgWriter.Pen pen, string text) => Key(p => svg.Line(p, new(p.X + 9, p.Y), pen), 9, text);
        Mark(true, false, "passed");
        Mark(false, false, "missed");
        Mark(null, false, "not judged");
        Mark(true, true, "beyond control limits");
        Line(RunMarks.Centre, "mean");
        Line(RunMarks.Control, "control limits");
        Key(p => svg.Rectangle(new(p.X, p.Y - 1.5, 9, 3), RunMarks.Expected), 9, "expected: U, k = 2");
        Line(RunMarks.Limit, "limit");
        Key(p => svg.Line(new(p.X + 1, p.Y - 1.8), new(p.X + 1, p.Y + 1.8), RunMarks.Adoption), 2, "adoption");
    }
}
