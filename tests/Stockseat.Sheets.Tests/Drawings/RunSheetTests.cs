using System.Globalization;
using System.Xml.Linq;
using Stockseat.Audit.Showing;
using Stockseat.Sheets.Drawings;
using Stockseat.Sheets.Svg;

namespace Stockseat.Sheets.Tests.Drawings;

public sealed class RunSheetTests
{
    private static readonly DateTimeOffset Start = new(2026, 11, 25, 8, 0, 0, TimeSpan.Zero);

    [Theory]
    [InlineData(1)]
    [InlineData(7)]
    [InlineData(30)]
    [InlineData(300)]
    [InlineData(1000)]
    public void A_page_of_any_number_of_values_is_drawn_in_order_of_time_and_within_its_frame(int count)
    {
        var page = Draw(Points(count), new RunSection(3, 0, count, null));

        Assert.Equal((297.0, 210.0), (page.Width, page.Height));
        var rings = Rings(page);
        Assert.Equal(count, rings.Length);
        Assert.Equal(rings.Select(r => r.X).Order(), rings.Select(r => r.X));
        Assert.All(rings, r => Assert.True(r.X is > 20 and < 270 && r.Y is > 30 and < 180, $"{r}"));
        Assert.All(page.All("text").Where(t => t.Attribute("text-anchor") is null), t => Assert.True(Page.Of(t, "x") >= 9));
    }

    [Fact]
    public void A_value_twice_as_large_is_twice_as_far_from_zero_and_above_zero_when_positive()
    {
        RunPoint[] points = [Point(0, 0), Point(1, 0.0001), Point(2, 0.0002), Point(3, -0.0002)];

        var y = Rings(Draw(points, new RunSection(1, 0, 4, null))).Select(r => r.Y).ToArray();

        Assert.True(y[1] < y[0]);
        Assert.Equal(2 * (y[1] - y[0]), y[2] - y[0], 1e-3);
        Assert.Equal(y[0] - y[2], y[3] - y[0], 1e-3);
    }

    [Fact]
    public void Passed_missed_unjudged_and_out_of_control_values_have_shapes_of_their_own()
    {
        RunPoint[] points = [Point(0, 0), Point(1, 0.0001, passed: false), Point(2, 0, passed: null), Point(3, 0.0002, beyond: true)];

        var values = Draw(points, new RunSection(1, 0, 4, null)).Group("values");

        Assert.Equal(
            (2, 1, 2, 1),
            (Page.In(values, "circle").Count(), Page.In(values, "polygon").Count(), Page.In(values, "line").Count(), Page.In(values, "rect").Count()));
    }

    [Fact]
    public void An_adoption_is_a_line_between_two_revisions_that_the_lines_of_values_never_cross()
    {
        var page = Draw(Points(10), new RunSection(3, 0, 4, null), new RunSection(4, 4, 6, (0.00001, -0.0001, 0.0001)));

        var adoption = Assert.Single(Page.In(page.Group("adoptions"), "line"));
        var rings = Rings(page);
        Assert.InRange(Page.Of(adoption, "x1"), rings[3].X, rings[4].X);
        Assert.Equal([4, 6], Page.In(page.Group("run"), "polyline").Select(p => Page.Points(p).Length));
        Assert.Contains("revision 4", page.Texts);
        var control = Page.In(page.Group("control"), "line").ToList();
        Assert.Equal(3, control.Count);
        Assert.All(control, l => Assert.Equal(Page.Of(adoption, "x1"), Page.Of(l, "x1"), 1e-3));
        Assert.Contains("mean +0.01", page.Texts);
    }

    [Fact]
    public void A_limit_that_would_flatten_the_values_is_stated_and_not_drawn()
    {
        RunPoint[] near = [.. Points(5).Select(p => p with { Limit = 0.0003, Expected = 0.0002 })],
        far = [.. Points(5).Select(p => p with { Limit = 0.01, Expected = 0.02 })];

        Assert.Equal(2, Page.In(Draw(near, new RunSection(1, 0, 5, null)).Group("limit"), "line").Count());
        Assert.Contains("limit ±0.3", Draw(near, new RunSection(1, 0, 5, null)).Texts);
        var page = Draw(far, new RunSection(1, 0, 5, null));
        Assert.Contains("limit ±10, further out", page.Texts);
        Assert.True(Rings(page).Max(r => r.Y) - Rings(page).Min(r => r.Y) > 20);
    }

    [Fact]
    public void Labels_at_the_right_do_not_cover_each_other()
    {
        RunPoint[] points = [.. Points(9).Select(p => p with { Metres = 0.0001, Limit = 0.0001, Expected = 0.0001 })];

        var labels = Page.In(Draw(points, new RunSection(1, 0, 9, (0.0001, 0.0001, 0.0001))).Group("labels"), "text").Select(t => Page.Of(t, "y")).Order()
            .ToArray();

        Assert.Equal(5, labels.Length);
        Assert.All(labels.Zip(labels.Skip(1)), p => Assert.True(p.Second - p.First >= 3.6));
    }

    [Fact]
    public void Texts_are_escaped() => Assert.Contains(
        "<b> & \"x\"", new Page(RunSheet.Draw("t", "<b> & \"x\"", [], Display.Plain, new RunChart("c", Points(1), [new(1, 0, 1, null)]))).Texts);

    private static RunPoint Point(int day, double metres, bool? passed = true, bool beyond = false) =>
        new(Start.AddDays(day), metres, null, null, passed, beyond);

    private static RunPoint[] Points(int count) => [.. Enumerable.Range(0, count).Select(i => Point(i, 0.0001 * Math.Sin(i * 2.4)))];

    private static (double X, double Y)[] Rings(Page page) => [.. Page.In(page.Group("values"), "circle").Select(c => (Page.Of(c, "cx"), Page.Of(c, "cy")))];

    private static Page Draw(RunPoint[] points, params RunSection[] sections) =>
        new(RunSheet.Draw("title", "under", ["note"], Display.Plain, new RunChart("along", points, sections)));
}
