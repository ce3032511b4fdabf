using System.Net;
using System.Text.RegularExpressions;
using Stockseat.Service.Tests.Support;

namespace Stockseat.Service.Tests.Pages;

/// <summary>A lot that somebody describes at a page: what was understood is shown before it is sent, and it counts after.</summary>
public sealed class LotsPageTests
{
    private const string Typed = "/lots/check?lot=B2077&unit=in&nominal=3,638&plus=0.004&minus=0";

    [Fact]
    public async Task A_lot_is_shown_in_both_units_sent_once_and_judges_measurements()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        using var line = await bench.Line();
        var check = await page.Page(Typed);
        Assert.Contains("This would be taken", check, StringComparison.Ordinal);
        Assert.Contains("<dt>Largest</dt><dd>92.507 mm; 3.6420 in</dd>", check, StringComparison.Ordinal);
        Assert.Contains("<dt>Smallest</dt><dd>92.405 mm; 3.6380 in</dd>", check, StringComparison.Ordinal);
        Assert.DoesNotContain(PageLedgerRows.Of(bench), b => PageLedgerRows.Text(b, "kind") == "lot-described");

        using var sent = await page.Post("/lots/check", Fields(check));
        using var again = await page.Post("/lots/check", Fields(check));

        Assert.Equal((HttpStatusCode.SeeOther, HttpStatusCode.SeeOther), (sent.StatusCode, again.StatusCode));
        Assert.Equal(sent.Headers.Location, again.Headers.Location);
        Assert.Single(PageLedgerRows.Of(bench), b => PageLedgerRows.Text(b, "kind") == "lot-described");
        Assert.Contains("lot B2077 was described, nominal 92.405", await page.Page($"{sent.Headers.Location}"), StringComparison.Ordinal);
        Assert.StartsWith("refused", await line.Ask("measured fixture=pinbed-1 diameter=92.6mm lot=B2077"), StringComparison.Ordinal);
        Assert.StartsWith("ok", await line.Ask("measured fixture=pinbed-1 diameter=92.5mm lot=B2077"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_lot_may_state_its_length()
    {
        await using var bench = await Bench.Start(prepare: b => b.CopyExample("regrip-5"));
        using var page = new PageClient(bench.Service.Page!);
        using var line = await bench.Line();
        var check = await page.Page(Typed + "&length=4.8&lengthplus=0.02&lengthminus=0");
        Assert.Contains("<dt>Length</dt><dd>121.920 to 122.428 mm; 4.8000 to 4.8200 in</dd>", check, StringComparison.Ordinal);
        using var sent = await page.Post("/lots/check", Fields(check));
        Assert.Contains("121.920 to 122.428 mm", await page.Page("/lots"), StringComparison.Ordinal);

        Assert.StartsWith("refused", await line.Ask("measured fixture=regrip-5 diameter=92.5mm length=120mm lot=B2077"), StringComparison.Ordinal);
        Assert.StartsWith("ok", await line.Ask("measured fixture=regrip-5 diameter=92.5mm length=122mm lot=B2077"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("lot=B2&unit=mm&nominal=92&tolerance=h11&length=120", "The length&#x27;s plus is missing")]
    [InlineData("lot=&unit=mm&nominal=92&tolerance=h11", "The lot is &#x27;&#x27;")]
    [InlineData("lot=B2&nominal=92&tolerance=h11", "No unit is chosen")]
    [InlineData("lot=B2&unit=mm&nominal=92", "The nominal diameter needs a tolerance as well")]
    [InlineData("lot=B2&unit=mm&nominal=92&tolerance=h99", "The tolerance is not a known tolerance")]
    [InlineData("lot=B2&unit=mm&nominal=92&plus=1", "The plus needs a minus as well")]
    [InlineData("lot=B2&unit=mm&nominal=0&tolerance=h11", "The nominal diameter, &#x27;0&#x27; mm, is not above 0 and up to")]
    [InlineData("lot=B2&unit=in&nominal=92 mm&tolerance=h11", "has a unit of its own")]
    public async Task Whatever_is_not_understood_is_said_and_stays_in_the_form(string typed, string said)
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);

        using var reply = await page.Get("/lots/check?" + typed);

        var shown = await reply.Content.ReadAsStringAsync();
        Assert.Equal(HttpStatusCode.BadRequest, reply.StatusCode);
        Assert.Contains(said, shown, StringComparison.Ordinal);
        Assert.Contains("method=\"get\"", shown, StringComparison.Ordinal);
        Assert.Equal(typed.Contains("nominal=92", StringComparison.Ordinal), shown.Contains("value=\"92", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_lot_of_the_configuration_is_shown_and_would_be_refused()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);

        Assert.Contains("<h2>A1077</h2>", await page.Page("/lots"), StringComparison.Ordinal);
        var check = await page.Page("/lots/check?lot=A1077&unit=mm&nominal=92&tolerance=h11");

        Assert.Contains("This would be refused", check, StringComparison.Ordinal);
        Assert.Contains("change it there, under Lots, and restart the service", check, StringComparison.Ordinal);
        Assert.Contains("What is said of it until now", check, StringComparison.Ordinal);
    }

    private static (string, string)[] Fields(string page) =>
        [.. Regex.Matches(page, "<input type=\"hidden\" name=\"([^\"]+)\" value=\"([^\"]*)\"").Select(m =>
            (m.Groups[1].Value, WebUtility.HtmlDecode(m.Groups[2].Value)))];
}
