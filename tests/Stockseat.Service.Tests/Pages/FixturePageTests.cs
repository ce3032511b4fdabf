using System.Net;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Stockseat.Ledger.Reading;
using Stockseat.Service.Tests.Support;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Pages;

/// <summary>The page of a fixture, adopting a revision, and saying that an answer was carried out.</summary>
public sealed class FixturePageTests
{
    private const string Adopt = "/adopt/pinbed-1/4";

    [Fact]
    public async Task A_fixture_shows_what_an_ask_would_get_and_what_its_revision_means()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        using var line = await bench.Line();
        var by = Regex.Match(await line.Ask("locate fixture=pinbed-1 diameter=92.4mm"), " by=([0-9.]+)").Groups[1].Value;

        var shown = await page.Page("/fixture/pinbed-1?diameter=92.4mm");

        var millimetres = double.Parse(by, System.Globalization.CultureInfo.InvariantCulture) * 1000;
        Assert.Contains(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"by &#x2B;{millimetres:0.000}"), shown, StringComparison.Ordinal);
        Assert.Contains("92.400 mm, which is 3.6378 in", shown, StringComparison.Ordinal);
        Assert.Contains("When the diameter grows by 1 mm", shown, StringComparison.Ordinal);
        Assert.Contains("<svg role=\"img\"", shown, StringComparison.Ordinal);
        Assert.DoesNotContain("style=\"", shown, StringComparison.Ordinal);
        Assert.Contains("not proven yet", shown, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Rechecks_are_shown_as_a_chart_and_in_words()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        Assert.DoesNotContain("rechecks-title", await page.Page("/fixture/pinbed-1"), StringComparison.Ordinal);
        var fixtures = new FixtureService.FixtureServiceClient(bench.Channel);
        foreach (var y in new[] { -0.2049, -0.2051, -0.2050 })
        {
            await fixtures.RecheckAsync(new()
            {
                Fixture = "pinbed-1", By = "setter", MasterMetres = 0.08, FoundMetres = new() { X = 0.4123, Y = y, Z = 0.118 },
            });
        }

        var shown = await page.Page("/fixture/pinbed-1");

        var charts = shown[shown.IndexOf("rechecks-title", StringComparison.Ordinal)..];
        charts = charts[..charts.IndexOf("</figure>", StringComparison.Ordinal)];
        Assert.Equal(2, Regex.Count(charts, "<g class=\"chart\">"));
        Assert.Contains("along the seat axis, in mm", charts, StringComparison.Ordinal);
        Assert.Contains("revision 3 has 3", shown, StringComparison.Ordinal);
        Assert.Equal(3, Regex.Count(shown, "master of 80 mm at nest 0,0 by setter"));
    }

    [Theory]
    [InlineData("/fixture/pinbed-1?diameter=92", HttpStatusCode.BadRequest)]
    [InlineData("/fixture/pinbed-1?diameter=0mm", HttpStatusCode.BadRequest)]
    [InlineData("/fixture/pinbed-1?diameter=9m", HttpStatusCode.OK)]
    [InlineData("/fixture/pinbed-1?purpose=place", HttpStatusCode.OK)]
    [InlineData("/fixture/rollers-3", HttpStatusCode.OK)]
    [InlineData("/fixture/veerack-2", HttpStatusCode.OK)]
    [InlineData("/fixture/nowhere-9", HttpStatusCode.NotFound)]
    [InlineData("/fixture", HttpStatusCode.NotFound)]
    [InlineData("/adopt/pinbed-1/99", HttpStatusCode.NotFound)]
    [InlineData("/done/1", HttpStatusCode.NotFound)]
    public async Task Whatever_is_asked_is_answered_or_refused(string path, HttpStatusCode status)
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);

        using var reply = await page.Get(path);

        Assert.Equal(status, reply.StatusCode);
    }

    [Fact]
    public async Task A_revision_is_adopted_as_it_was_shown_and_once()
    {
        await using var bench = await Bench.Start(prepare: b => b.WritePins(4, edits: ("\"diameter\": \"80 mm\"", "\"diameter\": \"81 mm\"")));
        using var page = new PageClient(bench.Service.Page!);
        bench.WritePins(5);
        var (path, shown) = ("/adopt/pinbed-1/5", await Seen(page, "/adopt/pinbed-1/5"));
        Assert.Contains("taught.diameter", shown, StringComparison.Ordinal);
        (string, string)[] form = [.. Fields(shown), ("by", "day setter"), ("why", "bed was moved")];

        using var first = await page.Post(path, form);
        using var again = await page.Post(path, form);

        Assert.Equal((HttpStatusCode.SeeOther, HttpStatusCode.SeeOther), (first.StatusCode, again.StatusCode));
        var adopted = Assert.Single(Bodies(bench), b => (string?)b["kind"] == "revision-adopted" && (int?)b["revision"] == 5);
        Assert.Equal(("day setter", "bed was moved"), ((string?)adopted["by"], (string?)adopted["why"]));
    }

    [Fact]
    public async Task A_file_that_changed_after_it_was_shown_is_not_adopted()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        bench.WritePins(4);
        var form = Fields(await Seen(page, Adopt));
        bench.WritePins(4, edits: ("\"diameter\": \"80 mm\"", "\"diameter\": \"82 mm\""));

        using var reply = await page.Post(Adopt, [.. form, ("by", "day setter"), ("why", "bed was moved")]);

        Assert.NotEqual(HttpStatusCode.SeeOther, reply.StatusCode);
        Assert.DoesNotContain(Bodies(bench), b => (string?)b["kind"] == "revision-adopted" && (int?)b["revision"] == 4);
    }

    [Fact]
    public async Task An_answer_is_carried_out_only_after_its_numbers_were_read_back()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        using var line = await bench.Line();
        var answer = await line.Ask("locate fixture=pinbed-1 diameter=92.4mm");
        var serial = LineClient.Value(answer, "serial")!;
        var path = $"/done/{serial}";
        using (var early = await page.Post(path, ("form", await page.Token(path)), ("by", "day setter")))
        {
            Assert.Equal(HttpStatusCode.Conflict, early.StatusCode);
        }

        await line.Ask($"confirm serial={serial} {string.Join(' ', Regex.Matches(answer, "b[xyz]=[^ ]+").Select(m => m.Value))}");
        (string, string)[] form = [("form", await page.Token(path)), ("by", "day setter")];
        using var done = await page.Post(path, form);
        using var again = await page.Post(path, form);

        Assert.Equal((HttpStatusCode.SeeOther, HttpStatusCode.SeeOther), (done.StatusCode, again.StatusCode));
        Assert.Single(Bodies(bench), b => (string?)b["kind"] == "done" && (string?)b["by"] == "day setter");
    }

    [Fact]
    public async Task A_client_without_the_role_adopts_nothing_and_carries_nothing_out()
    {
        await using var bench = await Bench.Start(configure: s => s["Clients"]!.AsArray().Insert(0, new JsonObject
        {
            ["Name"] = "tablet", ["From"] = new JsonArray("127.0.0.9"), ["Roles"] = new JsonArray("measure"),
        }));
        using var tablet = new PageClient(bench.Service.Page!, "127.0.0.9");

        foreach (var path in new[] { "/adopt/pinbed-1/3", "/done/1" })
        {
            using var reply = await tablet.Get(path);
            Assert.Equal(HttpStatusCode.Forbidden, reply.StatusCode);
        }

        Assert.DoesNotContain("/adopt/", await tablet.Page("/fixture/pinbed-1"), StringComparison.Ordinal);
    }

    /// <summary>The page, as soon as the service has seen the file that it is about.</summary>
    private static async Task<string> Seen(PageClient page, string path)
    {
        for (var i = 0; ; i++)
        {
            using var reply = await page.Get(path);
            if (reply.StatusCode == HttpStatusCode.OK || i == 100)
            {
                Assert.Equal(HttpStatusCode.OK, reply.StatusCode);
                return await reply.Content.ReadAsStringAsync();
            }

            await Task.Delay(100, TestContext.Current.CancellationToken);
        }
    }

    private static (string, string)[] Fields(string page) =>
        [.. Regex.Matches(page, "type=\"hidden\" name=\"([a-z]+)\" value=\"([^\"]*)\"").Select(m => (m.Groups[1].Value, m.Groups[2].Value))];

    private static List<JsonNode> Bodies(Bench bench)
    {
        using var reader = LedgerReader.Open(Path.Combine(bench.Folder, "data"));
        return [.. reader.Newest(1000).Select(r => JsonNode.Parse(r.Body)!)];
    }
}
