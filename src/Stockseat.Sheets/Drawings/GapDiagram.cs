using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Envelopes;
using Stockseat.Sheets.Svg;

namespace Stockseat.Sheets.Drawings;

/// <summary>The smallest gap against the diameter, with the limits.</summary>
public static class GapDiagram
{
    private const double Small = 3;

    /// <summary>How high the words above the plot are.</summary>
    private const double Words = 15;

    /// <summary>A diagram of its own, as SVG.</summary>
    /// <param name="drawn">What is drawn.</param>
    /// <param name="widthMillimetres">The paper's width, 100 or more.</param>
    /// <param name="heightMillimetres">The paper's height, 60 or more.</param>
    public static string Draw(DrawnPlan drawn, double widthMillimetres = 190, double heightMillimetres = 75)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(widthMillimetres, 100);
        ArgumentOutOfRangeException.ThrowIfLessThan(heightMillimetres, 60);
        return SvgWriter.Document("Smallest gap against diameter", widthMillimetres, heightMillimetres, svg =>
            Draw(svg, drawn, new(3, 2, widthMillimetres - 6, heightMillimetres - 4)));
    }

    internal static void Draw(SvgWriter svg, DrawnPlan drawn, Box box)
    {
        var curve = GapCurve.Of(drawn);
        var plot = new DiagramPlot(svg, curve, drawn.Unit, new(box.X + 15, box.Y + Words, box.Width - 17, box.Height - Words - 10));
        svg.Group("envelope", () => Tell(svg, drawn, box));
        svg.Group("axes", plot.Axes);
        svg.Window(plot.Area, () =>
        {
            svg.Group("outside", () => Outside(drawn, plot));
            svg.Group("wanted", () => Wanted(svg, drawn, plot));
            svg.Group("curve", plot.Curve);
        });
        svg.Group("marks", () => plot.Marks(drawn));
        svg.Rectangle(plot.Area, new(0.4));
        if (curve.Points.All(p => p.Gap is null))
        {
            svg.Text(
                new(plot.Area.X + (plot.Area.Width / 2), plot.Area.Y + (plot.Area.Height / 2)), "no gap: nothing is stated beside the stock", 4, "middle",
                halo: true);
        }
    }

    private static void Tell(SvgWriter svg, DrawnPlan drawn, Box box)
    {
        var obstacles = drawn.Plan.Obstacles;
        var lines = drawn.Envelope is { } e
            ? new[]
            {
                $"From {drawn.Unit.Text(e.Least.DiameterMetres)}: {Wording.Of(e.Least, obstacles, drawn.Unit)}.",
                $"To {drawn.Unit.Text(e.Greatest.DiameterMetres)}: {Wording.Of(e.Greatest, obstacles, drawn.Unit)}.",
            }
            : [
                "No diameter is allowed, not even the taught one.",
                drawn.Violated is { } v ? $"{drawn.Unit.Text(v.DiameterMetres)}: {Wording.Of(v, obstacles, drawn.Unit)}." : "",
            ];
        for (var i = 0; i < lines.Length; i++)
        {
            svg.Text(new(box.X, box.Y + 4 + (5 * i)), SvgWriter.Fitted(lines[i], 3.6, box.Width, bold: true), 3.6, bold: true);
        }
    }

    /// <summary>The diameters outside the envelope are hatched; each end has a line and its diameter.</summary>
    private static void Outside(DrawnPlan drawn, DiagramPlot plot)
    {
        if (drawn.Envelope is not { } envelope)
        {
            plot.Hatch(plot.Area);
            return;
        }

        if (envelope.Least.Constraint != Constraint.Reach)
        {
            plot.End(envelope.Least.DiameterMetres, least: true);
        }

        if (envelope.Greatest.Constraint != Constraint.Reach)
        {
            plot.End(envelope.Greatest.DiameterMetres, least: false);
        }
    }

    private static void Wanted(SvgWriter svg, DrawnPlan drawn, DiagramPlot plot)
    {
        if (drawn.Plan.GapMetres is { } wanted && plot.Y(wanted) is var y && y >= plot.Area.Y)
        {
            svg.Line(new(plot.Area.X, y), new(plot.Area.Right, y), new(0.5, "3 1.5"));
            svg.Text(new(plot.Area.X + (plot.Area.Width / 3), y + 3.8), $"wanted {drawn.Unit.Text(wanted)}", Small, "middle", halo: true);
        }
    }
}
