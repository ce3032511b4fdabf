using System.Net;
using System.Text.RegularExpressions;
using Stockseat.Service.Tests.Support;

namespace Stockseat.Service.Tests.Pages;

/// <summary>The length of a blank, and the blank of one nest, measured at a page.</summary>
public sealed class MeasureNestTests
{
    [Fact]
    public async Task The_length_is_asked_for_where_the_position_follows_it_and_the_controller_gets_that_shift()
    {
        await using var bench = await Bench.Start(prepare: b => b.CopyExample("regrip-5"));
        using var page = new PageClient(bench.Service.Page!);
        using var line = await bench.Line();
        Assert.Contains("taught with 120 mm", await page.Page("/measure/regrip-5"), StringComparison.Ordinal);
        Assert.DoesNotContain("Length of the blank", await page.Page("/measure/pinbed-1"), StringComparison.Ordinal);

        var (address, check) = await MeasurePageTests.Check(page, "/measure/regrip-5/check?reading1=80&unit=mm&length=124");
        Assert.Contains("This would be taken", check, StringComparison.Ordinal);
        Assert.Contains("124.000 mm; 4.8819 in", check, StringComparison.Ordinal);
        Assert.Contains("along the normal", check, StringComparison.Ordinal);
        Assert.Contains("L1 124 mm: +4.000 mm along w", check, StringComparison.Ordinal);
        Assert.Contains("L2 128 mm: +8.000 mm along w", await page.Page("/fixture/regrip-5"), StringComparison.Ordinal);
        using var sent = await MeasurePageTests.Send(page, address, check);

        // By hand: 4 mm longer, held at the free end, along the normal (0, -0.2588, 0.9659), and the stand-off, 0.3 mm times the root of 2 in a vee of 90
        // degrees, along the seat axis (0, 0.9659, 0.2588).
        var answer = await line.Ask("locate fixture=regrip-5");
        Assert.Equal("0.000000 -0.000625 0.003974", string.Join(' ', new[] { "bx", "by", "bz" }.Select(k => LineClient.Value(answer, k))));
        Assert.Contains("<td>\u22120.625</td>", WebUtility.HtmlDecode(check), StringComparison.Ordinal);
        Assert.Contains("<td>+3.974</td>", WebUtility.HtmlDecode(check), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("length=140", "would move the position 20.000 mm along the normal")]
    [InlineData("length=long", "The length, &#x27;long&#x27;, is not understood")]
    [InlineData("nest=2", "The nest is &#x27;2&#x27;; column,row such as 2,1 was expected")]
    [InlineData("nest=0,0&length=120", "nobody has said what stands in the nests of regrip-5")]
    public async Task Whatever_is_wrong_with_length_or_nest_is_said(string typed, string said)
    {
        await using var bench = await Bench.Start(prepare: b => b.CopyExample("regrip-5"));
        using var page = new PageClient(bench.Service.Page!);

        using var minted = await page.Get("/measure/regrip-5/check?reading1=80&unit=mm&" + typed);
        using var shown = await page.Get($"{minted.Headers.Location}");

        Assert.Contains(said, await shown.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_blank_of_one_nest_is_measured_by_itself_and_its_pick_is_told()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        using var line = await bench.Line();
        await line.Ask("measured fixture=pinbed-1 diameter=92.40mm lot=A1077");
        Assert.DoesNotContain("Only for one nest", await page.Page("/measure/pinbed-1"), StringComparison.Ordinal);
        await line.Ask("loaded fixture=pinbed-1 first=3");
        Assert.Contains("Only for one nest", await page.Page("/measure/pinbed-1"), StringComparison.Ordinal);

        var (address, check) = await MeasurePageTests.Check(page, "/measure/pinbed-1/check?reading1=90&unit=mm&lot=B2&nest=1,0");
        Assert.Contains("What the next pick at nest 1,0 would get", check, StringComparison.Ordinal);
        using var sent = await MeasurePageTests.Send(page, address, check);
        Assert.Contains("The next ask uses it.", await page.Page(address), StringComparison.Ordinal);
        Assert.Contains("raw 90.000 mm", await page.Page("/load/pinbed-1"), StringComparison.Ordinal);

        var first = await line.Ask("next fixture=pinbed-1");
        Assert.Contains(" nest=0,0 diameter=0.092400 ", first, StringComparison.Ordinal);
        await CarryOut(line, first);
        var second = await line.Ask("next fixture=pinbed-1");
        Assert.Contains(" nest=1,0 diameter=0.090000 ", second, StringComparison.Ordinal);
        var by = decimal.Parse(LineClient.Value(second, "by")!, System.Globalization.CultureInfo.InvariantCulture) * 1000;
        Assert.Contains(
            $"<th scope=\"row\">by</th><td>{by.ToString("+0.000;\u22120.000", System.Globalization.CultureInfo.InvariantCulture)}</td>",
            WebUtility.HtmlDecode(check), StringComparison.Ordinal);
    }

    /// <summary>Where every nest is measured by itself, the board does not ask for a measurement of the whole fixture.</summary>
    [Fact]
    public async Task A_fixture_whose_next_nest_is_measured_answers()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        using var line = await bench.Line();
        await line.Ask("loaded fixture=pinbed-1 first=2");
        Assert.Contains("<h2>pinbed-1</h2>\n<h3 class=\"state\"><span class=\"mark\" aria-hidden=\"true\">?</span> Measure first", await page.Page("/"),
            StringComparison.Ordinal);

        await line.Ask("measured fixture=pinbed-1 diameter=92.4mm nest=0,0");
        Assert.Contains("1 of 3 fixtures answers", await page.Page("/"), StringComparison.Ordinal);

        await CarryOut(line, await line.Ask("next fixture=pinbed-1"));
        Assert.Contains("All 3 fixtures wait for a measurement", await page.Page("/"), StringComparison.Ordinal);
    }
    private static async Task CarryOut(LineClient line, string answer)
    {
        var (serial, shift) = (LineClient.Value(answer, "serial"), string.Join(' ', Regex.Matches(answer, "b[xyz]=[^ ]+").Select(m => m.Value)));
        Assert.StartsWith("ok", await line.Ask($"confirm serial={serial} {shift}"), StringComparison.Ordinal);
        Assert.StartsWith("ok", await line.Ask($"done serial={serial}"), StringComparison.Ordinal);
    }
}
