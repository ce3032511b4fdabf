using System.Net;
using System.Text.Json.Nodes;
using Stockseat.Service.Tests.Support;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Pages;

/// <summary>A person with a caliper: what is shown before it is sent is what is recorded after.</summary>
public sealed class MeasurePageTests
{
    private const string Typed = "/measure/pinbed-1/check?reading1=3.638&unit=in&gauge=bench-2";
    private const string Hostile = "</dd><script>document.title='mine'</script>\u202e\"'<img src=x onerror=alert(1)>";

    [Fact]
    public async Task What_was_understood_is_shown_in_both_units_and_nothing_is_written()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        var before = PageLedgerRows.Of(bench).Count;

        var (_, check) = await Check(page, "/measure/pinbed-1/check?reading1=3,638&reading2=3.6380&reading3=3.640&unit=in&lot=A1077");

        Assert.Contains("This would be taken", check, StringComparison.Ordinal);
        Assert.Contains("<td>3,638 in</td>", check, StringComparison.Ordinal);
        Assert.Contains("<td>92.405</td><td>3.6380</td>", check, StringComparison.Ordinal);
        Assert.Contains("92.422 mm", check, StringComparison.Ordinal);
        Assert.Contains("3.6387 in", check, StringComparison.Ordinal);
        Assert.Contains("Until now: Nothing is measured.", check, StringComparison.Ordinal);
        Assert.Contains("<svg role=\"img\"", check, StringComparison.Ordinal);
        Assert.Equal(before, PageLedgerRows.Of(bench).Count);
    }

    [Fact]
    public async Task The_shift_that_is_shown_is_the_one_that_the_controller_gets()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        var (address, check) = await Check(page, Typed);
        (await Send(page, address, check)).Dispose();
        using var line = await bench.Line();

        var answer = await line.Ask("locate fixture=pinbed-1");

        var by = System.Text.RegularExpressions.Regex.Match(answer, " by=(-?[0-9.]+)").Groups[1].Value;
        var shown = (decimal.Parse(by, System.Globalization.CultureInfo.InvariantCulture) * 1000).ToString(
            "+0.000;\u22120.000", System.Globalization.CultureInfo.InvariantCulture);
        Assert.Contains($"<th scope=\"row\">by</th><td>{WebUtility.HtmlEncode(shown)}</td>", WebUtility.HtmlDecode(check), StringComparison.Ordinal);
        Assert.Contains("It is a first answer", check, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_form_that_is_sent_is_one_entry_and_its_page_says_what_came_of_it()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        var (address, check) = await Check(page, Typed);

        using var sent = await Send(page, address, check);
        using var again = await Send(page, address, check);

        Assert.Equal((HttpStatusCode.SeeOther, HttpStatusCode.SeeOther), (sent.StatusCode, again.StatusCode));
        var entry = Assert.Single(PageLedgerRows.Of(bench), b => PageLedgerRows.Text(b, "kind") == "measurement");
        Assert.Equal((0.0924052, "in", "bench-2", "bench"),
            ((double)entry["diameter"]!, PageLedgerRows.Text(entry, "unit"), PageLedgerRows.Text(entry, "gauge"), PageLedgerRows.Text(entry, "client")));
        var after = await page.Page($"{sent.Headers.Location}");
        Assert.Contains($"Recorded as entry {entry["serial"]}", after, StringComparison.Ordinal);
        Assert.Contains("The next ask uses it.", after, StringComparison.Ordinal);
        Assert.DoesNotContain("method=\"post\"", after, StringComparison.Ordinal);
        Assert.Equal(after.Length, (await page.Page(address)).Length); // Back shows the same.
    }

    [Fact]
    public async Task An_old_form_that_is_sent_again_does_not_touch_a_newer_measurement()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        using var line = await bench.Line();
        var (address, check) = await Check(page, Typed);
        (await Send(page, address, check)).Dispose();
        await line.Ask("measured fixture=pinbed-1 diameter=92.5mm");
        var before = PageLedgerRows.Of(bench).Count;

        using var late = await Send(page, address, check);

        Assert.Equal(HttpStatusCode.SeeOther, late.StatusCode);
        Assert.Equal(before, PageLedgerRows.Of(bench).Count);
        Assert.Contains("It does not count any more.", await page.Page($"{late.Headers.Location}"), StringComparison.Ordinal);
        Assert.StartsWith("ok", await line.Ask("locate fixture=pinbed-1"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_form_of_before_a_roll_says_that_it_was_sent()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        var (address, check) = await Check(page, Typed);
        (await Send(page, address, check)).Dispose();

        await new LedgerService.LedgerServiceClient(bench.Channel).RollAsync(new() { By = "setter", Why = "spring" });

        Assert.Contains("Recorded as entry", await page.Page(address), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_form_of_before_a_restart_says_that_it_was_sent()
    {
        await using var bench = await Bench.Start();
        string address, check;
        using (var page = new PageClient(bench.Service.Page!))
        {
            (address, check) = await Check(page, Typed);
            (await Send(page, address, check)).Dispose();
        }

        await bench.Restart();
        using var after = new PageClient(bench.Service.Page!);
        using var again = await Send(after, address, check);

        Assert.Equal(HttpStatusCode.SeeOther, again.StatusCode);
        Assert.Contains("Recorded as entry", await after.Page(address), StringComparison.Ordinal);
        Assert.Single(PageLedgerRows.Of(bench), b => PageLedgerRows.Text(b, "kind") == "measurement");
    }

    [Fact]
    public async Task Readings_that_disagree_stand_side_by_side_and_the_refusal_is_recorded_only_when_it_is_sent()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        var (address, check) = await Check(page, "/measure/pinbed-1/check?reading1=92.40&reading2=92.41&reading3=94.20&unit=mm&gauge=bench-2");

        Assert.Contains("This would be refused", check, StringComparison.Ordinal);
        Assert.Contains("reading 3, 94.20 mm, stands out", check, StringComparison.Ordinal);
        Assert.Contains("<td>94.20 mm</td>", check, StringComparison.Ordinal);
        Assert.DoesNotContain(PageLedgerRows.Of(bench), b => PageLedgerRows.Text(b, "kind") == "refusal");

        using var sent = await Send(page, address, check);

        var refusal = Assert.Single(PageLedgerRows.Of(bench), b => PageLedgerRows.Text(b, "kind") == "refusal");
        Assert.Equal("readings-disagree", PageLedgerRows.Text(refusal, "reason"));
        var after = await page.Page($"{sent.Headers.Location}");
        Assert.Contains($"Refused, and recorded as entry {refusal["serial"]}", after, StringComparison.Ordinal);
        Assert.Contains("stands out", after, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_slip_is_explained_before_anything_is_sent()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);

        var (_, check) = await Check(page, "/measure/pinbed-1/check?reading1=3.638&unit=mm&lot=A1077");

        Assert.Contains("the number fits lot A1077 when it is taken in inches: 92.405 mm", check, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_fixture_that_is_held_is_measured_and_the_next_ask_is_shown_to_be_refused()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        await new FixtureService.FixtureServiceClient(bench.Channel).HoldAsync(new() { Fixture = "pinbed-1", By = "setter", Why = "nests are cleaned" });

        var (_, check) = await Check(page, Typed);

        Assert.Contains("This would be taken", check, StringComparison.Ordinal);
        Assert.Matches("It is refused: .*held by setter", check);
    }

    [Theory]
    [InlineData("reading1=92.4", "No unit is chosen")]
    [InlineData("reading1=92.4&unit=um", "No unit is chosen")]
    [InlineData("unit=mm", "No reading is typed")]
    [InlineData("reading1=92.4&reading2=x&unit=mm", "Reading 2, &#x27;x&#x27;, is not understood")]
    [InlineData("reading1=92.4&unit=mm&lot=a%20b", "The lot is &#x27;a b&#x27;")]
    public async Task What_is_missing_or_not_understood_is_asked_for_again_with_what_was_typed(string query, string fault)
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        using var minted = await page.Get($"/measure/pinbed-1/check?{query}");

        using var reply = await page.Get($"{minted.Headers.Location}");

        var shown = await reply.Content.ReadAsStringAsync();
        Assert.Equal(HttpStatusCode.BadRequest, reply.StatusCode);
        Assert.Contains(fault, shown, StringComparison.Ordinal);
        Assert.Equal(query.Contains("reading1", StringComparison.Ordinal), shown.Contains("value=\"92.4\"", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Hostile_texts_are_shown_as_texts()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        var typed = Uri.EscapeDataString(Hostile);

        foreach (var path in new[]
        {
            $"/measure/pinbed-1?reading1={typed}&unit={typed}&gauge={typed}&lot={typed}",
            $"/measure/pinbed-1/check?reading1={typed}&unit=mm&gauge={typed}&lot={typed}&id=page-0",
            $"/measure/{typed}",
        })
        {
            using var reply = await page.Get(path);
            var text = await reply.Content.ReadAsStringAsync();
            Assert.Contains("script&gt;", text.Replace("&lt;/", "&lt;", StringComparison.Ordinal), StringComparison.Ordinal);
            Assert.DoesNotContain("<script>", text, StringComparison.Ordinal);
            Assert.DoesNotContain("<img", text, StringComparison.Ordinal);
            Assert.DoesNotContain('\u202e', text);
        }
    }

    [Fact]
    public async Task A_client_without_the_role_or_the_fixture_sees_no_form_and_writes_nothing()
    {
        await using var bench = await Bench.Start(configure: s => s["Clients"]!.AsArray().Insert(0, new JsonObject
        {
            ["Name"] = "tablet", ["From"] = new JsonArray("127.0.0.9"), ["Roles"] = new JsonArray("measure"), ["Fixtures"] = new JsonArray("pinbed-1"),
        }));
        using var tablet = new PageClient(bench.Service.Page!, "127.0.0.9");
        using var own = new PageClient(bench.Service.Page!);
        var before = PageLedgerRows.Of(bench).Count;

        Assert.DoesNotContain("veerack-2", await tablet.Page("/measure"), StringComparison.Ordinal);
        using var foreign = await tablet.Get("/measure/veerack-2");
        Assert.Equal(HttpStatusCode.Forbidden, foreign.StatusCode);
        var (address, check) = await Check(own, Typed); // Another client's token is of no use.
        using var sent = await Send(tablet, address, check);
        Assert.Equal(HttpStatusCode.Conflict, sent.StatusCode);
        Assert.Equal(before, PageLedgerRows.Of(bench).Count);
    }

    [Fact]
    public async Task Emptied_nests_void_the_measurement_once()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        using var line = await bench.Line();
        await line.Ask("measured fixture=pinbed-1 diameter=92.5mm lot=A1077");
        (string, string) token = ("form", await page.Token("/emptied/pinbed-1"));

        using var sent = await page.Post("/emptied/pinbed-1", token);
        using var again = await page.Post("/emptied/pinbed-1", token);

        Assert.Equal((HttpStatusCode.SeeOther, sent.Headers.Location), (again.StatusCode, again.Headers.Location));
        Assert.Single(PageLedgerRows.Of(bench), b => PageLedgerRows.Text(b, "kind") == "emptied");
        Assert.Contains("No measurement counts", await page.Page("/measure/pinbed-1"), StringComparison.Ordinal);
    }

    /// <summary>The second step: its address, which has the id of its form, and what it shows.</summary>
    internal static async Task<(string Address, string Page)> Check(PageClient page, string typed)
    {
        using var minted = await page.Get(typed);
        Assert.Equal(HttpStatusCode.SeeOther, minted.StatusCode);
        var address = $"{minted.Headers.Location}";
        return (address, await page.Page(address));
    }

    /// <summary>Sends the form of the second step as a browser does.</summary>
    internal static Task<HttpResponseMessage> Send(PageClient page, string address, string check) => page.Post(
        address.Split('?')[0],
        [.. System.Text.RegularExpressions.Regex.Matches(check, "<input type=\"hidden\" name=\"([^\"]+)\" value=\"([^\"]*)\"")
            .Select(m => (m.Groups[1].Value, WebUtility.HtmlDecode(m.Groups[2].Value)))]);
}
