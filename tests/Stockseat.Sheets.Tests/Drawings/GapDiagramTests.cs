using Stockseat.Seating.Envelopes;
using Stockseat.Sheets.Drawings;

namespace Stockseat.Sheets.Tests.Drawings;

public sealed class GapDiagramTests
{
    private static readonly DrawnPlan Pins = DrawnPlan.Of(Plans.Pins with { Gripper = null, StatedMetres = (0.06, 0.15) }, [0.09, 0.1]);

    [Fact]
    public void The_ends_are_where_the_axis_says_and_the_limiting_constraint_is_named()
    {
        var page = new Page(GapDiagram.Draw(Pins));
        var x = Axis(page);

        // 120 mm from column to column, minus the 2 mm that are wanted.
        Assert.Equal(0.118, Pins.Envelope!.Greatest.DiameterMetres, 2e-6);
        var ends = Page.In(page.Group("outside"), "line").Where(l => Page.Of(l, "stroke-width") == 0.8).Select(l => Page.Of(l, "x1")).ToArray();
        Assert.Equal([x(60), x(1000 * Pins.Envelope.Greatest.DiameterMetres)], ends, (a, b) => Math.Abs(a - b) < 1e-2);
        Assert.Contains("From 60 mm: end of the stated range.", page.Texts);
        Assert.Contains(page.Texts, t => t.StartsWith("To 118 mm: gap of 2 mm, stock to stock of nest ", StringComparison.Ordinal));
        Assert.Contains("wanted 2 mm", page.Texts);
    }

    [Fact]
    public void A_dot_is_drawn_at_the_gap_of_each_diameter()
    {
        var page = new Page(GapDiagram.Draw(Pins));
        var (x, y) = (Axis(page), Ordinate(page));

        var dots = Page.In(page.Group("marks"), "circle").Select(c => (X: Page.Of(c, "cx"), Y: Page.Of(c, "cy"))).ToArray();

        Assert.Equal(3, dots.Length);
        foreach (var (dot, d) in dots.Zip((double[])[80, 90, 100]))
        {
            Assert.Equal(x(d), dot.X, 1e-2);
            Assert.Equal(y(1000 * Gaps.At(Pins.Plan, d / 1000).First(g => g.Counts).Metres), dot.Y, 1e-2);
        }

        Assert.Equal(["T", "B", "A"], Page.In(page.Group("marks"), "text").Select(t => t.Value));
    }

    [Fact]
    public void Letters_of_close_diameters_do_not_cover_each_other()
    {
        var page = new Page(GapDiagram.Draw(Plans.Drawn("nearly the same six")));

        var at = Page.In(page.Group("marks"), "text").Select(t => Page.Of(t, "x")).ToArray();

        Assert.Equal(7, at.Length);
        Assert.All(at.Zip(at.Skip(1)), pair => Assert.True(pair.Second - pair.First >= 4.4));
    }

    [Fact]
    public void Where_nothing_is_beside_the_stock_the_diagram_says_so()
    {
        var page = new Page(GapDiagram.Draw(Plans.Drawn("one nest alone")));

        Assert.Contains("no gap: nothing is stated beside the stock", page.Texts);
        Assert.Empty(Page.In(page.Group("curve"), "polyline"));
    }

    [Fact]
    public void Without_an_envelope_everything_is_hatched_and_labelled()
    {
        var drawn = DrawnPlan.Of(Plans.Pins with { Gripper = null, GapMetres = 0.05 }, []);
        var page = new Page(GapDiagram.Draw(drawn));

        Assert.Null(drawn.Envelope);
        Assert.Contains("No diameter is allowed, not even the taught one.", page.Texts);
        Assert.Contains(page.Texts, t => t.StartsWith("80 mm: gap of 50 mm, stock to stock of nest ", StringComparison.Ordinal));
    }

    /// <summary>From millimetres to positions on the paper, by the numbers at the ticks.</summary>
    private static Func<double, double> Axis(Page page) => Linear(
        [
            .. Page.In(page.Group("axes"), "text").Where(t => (string?)t.Attribute("text-anchor") == "middle" && char.IsAsciiDigit(t.Value[0]))
            .Select(t => (Page.Number(t.Value), Page.Of(t, "x"))),
        ]);

    private static Func<double, double> Ordinate(Page page) => Linear(
        [
            .. Page.In(page.Group("axes"), "text").Where(t => (string?)t.Attribute("text-anchor") == "end")
            .Select(t => (Page.Number(t.Value), Page.Of(t, "y") - 1)),
        ]);

    private static Func<double, double> Linear((double Value, double At)[] ticks)
    {
        Assert.InRange(ticks.Length, 3, 16);
        var (first, last) = (ticks[0], ticks[^1]);
        return v => first.At + ((v - first.Value) / (last.Value - first.Value) * (last.At - first.At));
    }
}
