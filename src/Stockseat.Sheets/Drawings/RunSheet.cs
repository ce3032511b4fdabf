using System.Globalization;
using Stockseat.Audit.Showing;
using Stockseat.Sheets.Svg;

namespace Stockseat.Sheets.Drawings;

/// <summary>One page in landscape: run charts of values at the same instants, one above the other, with the meaning of their marks.</summary>
public static class RunSheet
{
    private const double Margin = 10;

    /// <summary>Room for the numbers at the left and at the right of the plots.</summary>
    private const double LeftRoom = 16;

    private const double RightRoom = 32;

    private const double Top = 34;

    private const double Foot = 49;

    private const double Small = 3;

    /// <summary>The page as SVG.</summary>
    /// <param name="title">What it is of.</param>
    /// <param name="under">A line under the title.</param>
    /// <param name="notes">Lines at the foot: at most five.</param>
    /// <param name="display">The unit of its lengths, the zone of its times, its paper.</param>
    /// <param name="charts">The charts, 1 or more, all with values of the same instants.</param>
    public static string Draw(string title, string under, IReadOnlyList<string> notes, Display display, params RunChart[] charts)
    {
        var (width, height) = (display.Paper.Height, display.Paper.Width);
        var each = (height - Top - Foot) / charts.Length;
        return SvgWriter.Document(title, width, height, svg =>
        {
            svg.Text(new(Margin, 17), SvgWriter.Fitted(title, 7, width - (2 * Margin), bold: true), 7, bold: true);
            svg.Text(new(Margin, 24), SvgWriter.Fitted(under, 3.4, width - (2 * Margin)), 3.4);
            RunPlot? plot = null;
            var span = RunPlot.Span(charts);
            for (var i = 0; i < charts.Length; i++)
            {
                var (chart, area) = (charts[i], new Box(Margin + LeftRoom, Top + (i * each) + 2, width - (2 * Margin) - LeftRoom - RightRoom, each - 10));
                svg.Group("chart", () => (plot = new(svg, chart, area, span, display.Length)).Draw());
            }

            svg.Group("instants", () => Instants(svg, charts[0].Points, plot!, height - Foot - 8, display.Times));
            svg.Group("legend", () => Legend(svg, height - Foot + 15));
            for (var i = 0; i < notes.Count; i++)
            {
                svg.Text(new(Margin, height - Foot + 22.5 + (4.2 * i)), SvgWriter.Fitted(notes[i], Small, width - (2 * Margin)), Small);
            }
        });
    }

    /// <summary>Days, with the time of day below, as many as there is room for; the first and the last always.</summary>
    private static void Instants(SvgWriter svg, IReadOnlyList<RunPoint> points, RunPlot plot, double y, ZonedTimes times)
    {
        const double Room = 22;
        var free = double.NegativeInfinity;
        var last = plot.X(points.Count - 1);
        for (var i = 0; i < points.Count; i++)
        {
            var x = plot.X(i);
            svg.Line(new(x, y), new(x, y + (points.Count > 60 ? 0.8 : 1.2)), new(0.15));
            if (x < free || (i < points.Count - 1 && x > last - Room))
            {
                continue;
            }

            free = x + Room;
            var at = times.In(points[i].At);
            svg.Line(new(x, y), new(x, y + 2), new(0.35));
            svg.Text(new(x, y + 5), at.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), Small, "middle");
            svg.Text(new(x, y + 8.6), at.ToString("HH:mm", CultureInfo.InvariantCulture), Small, "middle");
        }

        svg.Text(new(Margin, y + 8.6), SvgWriter.Fitted(times.Name, Small, LeftRoom), Small);
    }

    private static void Legend(SvgWriter svg, double y)
    {
        var x = Margin;
        void Key(Action<Point> sample, double width, string text)
        {
            sample(new(x, y - 1));
            svg.Text(new(x + width + 1.5, y), text, Small);
            x += width + 5.5 + SvgWriter.WidthOf(text, Small);
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
