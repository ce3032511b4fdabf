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

            svg.Group("instants", () => RunKeys.Instants(svg, charts[0].Points, plot!, new(Margin, height - Foot - 8), display.Times));
            svg.Group("legend", () => RunKeys.Legend(svg, new(Margin, height - Foot + 15), width - (2 * Margin)));
            for (var i = 0; i < notes.Count; i++)
            {
                svg.Text(new(Margin, height - Foot + 22.5 + (4.2 * i)), SvgWriter.Fitted(notes[i], Small, width - (2 * Margin)), Small);
            }
        });
    }
}
