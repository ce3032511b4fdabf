using Stockseat.Audit.Showing;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;
using Stockseat.Sheets.Drawings;

namespace Stockseat.Sheets.Tests.Drawings;

/// <summary>The stock from the side is to scale, and held where the share says.</summary>
public sealed class LengthFigureTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(0.5)]
    [InlineData(0)]
    public void Bars_are_as_long_as_the_stock_and_held_at_the_share_of_it(double share)
    {
        var page = new Page(LengthFigure.Draw(new Grip(share, 0.12, null), [0.112, 0.13], LengthUnit.Millimetre, 190));

        var bars = page.All("rect").Skip(1).ToArray(); // The first one is the paper.
        var held = page.All("line").Where(l => l.Attribute("stroke-width")!.Value == "1").Select(l => Page.Of(l, "x1")).ToArray();

        double[] lengths = [0.12, 0.112, 0.13];
        Assert.All(lengths.Zip(bars), p => Assert.Equal(p.First / 0.12, Page.Of(p.Second, "width") / Page.Of(bars[0], "width"), 1e-4));
        Assert.All(bars.Zip(held), p => Assert.Equal(share, (p.Second - Page.Of(p.First, "x")) / Page.Of(p.First, "width"), 1e-4));
        Assert.Contains("T 120 mm, taught", page.Texts);
        Assert.Contains(
            share switch { 1 => "L1 112 mm: -8.000 mm along w", 0 => "L1 112 mm: 0.000 mm along w", _ => "L1 112 mm: -4.000 mm along w" }, page.Texts);
    }

    [Fact]
    public void The_sheet_of_a_fixture_shows_the_lengths_at_its_limit()
    {
        var revision = Plans.Demo("../examples/regrip-5/r0001.json");
        foreach (var paper in new[] { PaperSize.A4, PaperSize.Letter })
        {
            var page = new Page(FixtureSheet.Draw(revision, "pick", Plans.Drawn(revision), paper));

            SafePageTests.IsPlain(page);
            SafePageTests.IsOnThePaper(page);
            Assert.Equal(
                ["T 120 mm, taught", "L1 112 mm: -8.000 mm along w", "L2 128 mm: +8.000 mm along w"],
                Page.In(page.Group("length"), "text").Select(t => t.Value).Take(3));
        }

        var plain = Plans.Demo("pinbed-1/r0003.json");
        Assert.DoesNotContain(
            new Page(FixtureSheet.Draw(plain, "pick", Plans.Drawn(plain), PaperSize.A4)).All("g"), g => g.Attribute("class")!.Value == "length");
    }

    [Fact]
    public void Lengths_are_said_in_the_unit_of_the_display() => Assert.Equal(
        "Stock of 5 in is held +0.2756 in along w from where stock of the taught 4.7244 in is.",
        LengthFigure.Said(new Grip(1, 0.12, null), [0.127], LengthUnit.Inch));
}
