using Stockseat.Audit.Showing;
using Stockseat.Sheets.Svg;

namespace Stockseat.Sheets.Drawings;

/// <summary>Run charts of values at the same instants as a figure of a page: narrow, so that its words are large on a tablet.</summary>
public static class RunFigure
{
    private const double Width = 130, Margin = 2;

    /// <summary>Room for the numbers at the left and at the right of the plots.</summary>
    private const double LeftRoom = 16, RightRoom = 32;

    private const double Title = 9, Plot = 40, Foot = 34;

    /// <summary>The figure as SVG.</summary>
    /// <param name="part">Its title and description on the page.</param>
    /// <param name="display">The unit of its lengths and the zone of its times.</param>
    /// <param name="charts">The charts, 1 or more.</param>
    public static string Draw(PagePart part, Display display, params RunChart[] charts)
    {
        var svg = new SvgWriter();
        RunPlot? plot = null;
        var span = RunPlot.Span(charts);
        foreach (var (i, chart) in charts.Index())
        {
            var area = new Box(Margin + LeftRoom, (i * (Title + Plot)) + Title, Width - (2 * Margin) - LeftRoom - RightRoom, Plot);
            svg.Group("chart", () => (plot = new(svg, chart, area, span, display.Length)).Draw());
        }

        var foot = charts.Length * (Title + Plot);
        svg.Group("instants", () => RunKeys.Instants(svg, charts[0].Points, plot!, new(Margin, foot + 2), display.Times));
        svg.Group("legend", () => RunKeys.Legend(svg, new(Margin, foot + 18), Width - (2 * Margin)));
        return svg.Inside(part, Width, foot + Foot);
    }
}
