using System.Globalization;
using Stockseat.Audit.Showing;
using Stockseat.Seating.Envelopes;
using Stockseat.Sheets.Drawings;
using Stockseat.Sheets.Svg;

namespace Stockseat.Sheets.Tests.Drawings;

/// <summary>Distances measured on the paper with a rule are the real ones.</summary>
public sealed class ToScaleTests
{
    public static TheoryData<string> Odd => Plans.Odd;

    [Theory]
    [MemberData(nameof(Odd))]
    public void Stock_has_its_radius_at_the_stated_scale(string odd)
    {
        var drawn = Plans.Drawn(odd);
        var page = new Page(PlanDrawing.Draw(drawn));

        var radii = Page.In(page.Group("stock"), "circle").Select(c => Page.Of(c, "r")).ToArray();

        var expected = drawn.All.Where(d => d.Stock is not null).Select(d => d.Metres * 500 * page.Scale).ToArray();
        Assert.Equal(expected.Length, radii.Length);
        Assert.All(expected.Zip(radii), pair => Assert.Equal(pair.First, pair.Second, 1e-4));
    }

    [Fact]
    public void A_bed_of_pins_is_where_its_pins_are()
    {
        // Two pins of 12 mm, 60 mm apart; 100 mm stock has its centre √(56² − 30²) mm above them: √2236.
        var page = new Page(FixtureSheet.Draw(Plans.Demo("pinbed-1/r0003.json"), "pick", Plans.Drawn(Plans.Demo("pinbed-1/r0003.json"), 0.1), PaperSize.A4));

        var pins = Page.In(page.Group("locators"), "circle").ToArray();
        var stock = Page.In(page.Group("stock"), "circle").First();

        Assert.Equal(0.5, page.Scale);
        Assert.Contains("plan 1:2, lengths in mm", page.Texts);
        Assert.Equal(2, pins.Length);
        Assert.All(pins, p => Assert.Equal(3, Page.Of(p, "r"), 1e-4));
        Assert.Equal(30, Page.Of(pins[1], "cx") - Page.Of(pins[0], "cx"), 1e-3);
        Assert.Equal(15, Page.Of(stock, "cx") - Page.Of(pins[0], "cx"), 1e-3);
        Assert.Equal(Math.Sqrt(2236) / 2, Page.Of(pins[0], "cy") - Page.Of(stock, "cy"), 1e-3);
    }

    [Fact]
    public void The_bar_is_as_long_as_its_label_says()
    {
        var page = new Page(PlanDrawing.Draw(DrawnPlan.Of(Plans.Pins, [0.1])));

        var length = Page.Length(Page.In(page.Group("scale"), "line").First());

        Assert.Contains($"Scale 1:2 if this bar is {length.ToString("0.#", CultureInfo.InvariantCulture)} mm long on the paper; print at 100 %.", page.Texts);
        Assert.Contains($"{(2 * length).ToString("0.#", CultureInfo.InvariantCulture)} mm", page.Texts);
    }

    [Fact]
    public void Jaws_are_drawn_closed_on_the_largest_diameter_and_open_around_it()
    {
        var drawn = DrawnPlan.Of(Plans.Pins, [0.07, 0.1]);
        var page = new Page(PlanDrawing.Draw(drawn));

        var boxes = Page.In(page.Group("gripper"), "polygon").ToArray();
        var stock = Page.In(page.Group("stock"), "circle").First();

        Assert.Equal(0.1, drawn.Worked.Metres);
        Assert.Equal(["#ddd", "#ddd", "#ddd", "none", "none", "none"], boxes.Select(b => b.Attribute("fill")!.Value));

        // Jaw 3 points straight down: when closed, its inner side is at the stand-off's rise from the stock; when open, half of openBy lower.
        var (closed, open) = (Page.Points(boxes[2]).Min(p => p.Y), Page.Points(boxes[5]).Min(p => p.Y));
        var rise = PlanShapes.Gripper(drawn.Plan, 0.1, open: false)[2].From.V - (drawn.Worked.Stock!.Value.From.V - 0.05);
        Assert.Equal(Page.Of(stock, "cy") + Page.Of(stock, "r") - (1000 * rise * page.Scale), closed, 1e-3);
        Assert.Equal(6 * page.Scale, open - closed, 1e-3);
        Assert.All(["jaw 1", "jaw 2", "jaw 3", "pin 1", "pin 2", "nest 1,0", "nest -1,0"], label => Assert.Contains(label, page.Texts));
    }

    [Fact]
    public void Only_neighbours_in_the_window_are_drawn()
    {
        var page = new Page(PlanDrawing.Draw(DrawnPlan.Of(Plans.Pins with { Columns = 40, Rows = 40 }, [0.09])));

        Assert.InRange(Page.In(page.Group("neighbours"), "circle").Count(), 6, 60);
    }

    [Fact]
    public void An_endless_face_ends_at_the_window()
    {
        var page = new Page(PlanDrawing.Draw(Plans.Drawn("faces without an end")));
        var window = page.All("svg").Single();

        foreach (var line in Page.In(page.Group("locators"), "line"))
        {
            Assert.All(
                [Page.Of(line, "x1"), Page.Of(line, "x2")], x =>
                    Assert.InRange(x, Page.Of(window, "x") - 1e-3, Page.Of(window, "x") + Page.Of(window, "width") + 1e-3));
        }
    }

    [Theory]
    [InlineData(0.18, 0.09, "1:1")]
    [InlineData(0.2, 0.09, "1:2")]
    [InlineData(0.0018, 0.001, "100:1")]
    [InlineData(0.000001, 0.000001, "100:1")]
    [InlineData(4.9, 4.9, "1:50")]
    [InlineData(9e9, 1, "1:1000")]
    public void The_scale_is_the_largest_round_one_that_fits(double width, double height, string expected) =>
        Assert.Equal(expected, Scale.Fitting(width, height, 190, 100).ToString());
}
