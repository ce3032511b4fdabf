using System.Net;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Stockseat.Ledger.Reading;
using Stockseat.Service.Tests.Support;

namespace Stockseat.Service.Tests.Pages;

/// <summary>The pages of the ledger: its entries, one entry, how it was computed.</summary>
public sealed class LedgerPageTests
{
    private const int Size = 200;

    private const string Hostile = "</p><script>document.title='mine'</script>";

    [Fact]
    public async Task Entries_are_shown_newest_first_and_older_pages_follow_without_a_gap()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        using var line = await bench.Line();
        for (var i = 0; i < Size + 5; i++)
        {
            await line.Ask("emptied fixture=pinbed-1");
        }

        var first = await page.Page("/ledger");
        var older = WebUtility.HtmlDecode(Regex.Match(first, "href=\"([^\"]+)\">Older entries").Groups[1].Value);
        List<long> serials = [.. Serials(first), .. Serials(await page.Page(older))];

        Assert.Equal(Size, Serials(first).Count);
        Assert.Equal(Enumerable.Range(0, serials.Count).Select(i => serials[0] - i), serials);
        Assert.Equal(1, serials[^1]);
    }

    [Theory]
    [InlineData("fixture=veerack-2", "held")]
    [InlineData("kind=emptied", "emptied")]
    [InlineData("tag=17", "emptied")]
    [InlineData("from=2020-01-01&kind=held", "held")]
    public async Task Only_entries_that_are_wanted_are_shown(string query, string kind)
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        using var line = await bench.Line();
        await line.Ask("emptied fixture=pinbed-1 tag=17");
        await Hold(bench, "veerack-2", "day setter", "cleaning");

        var shown = await page.Page($"/ledger?{query}");

        Assert.Contains($"<strong>{kind}</strong>", shown, StringComparison.Ordinal);
        Assert.DoesNotContain("<strong>service-started</strong>", shown, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Times_leave_out_what_is_not_within_them()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);

        Assert.Empty(Serials(await page.Page("/ledger?to=2020-01-01T00:00:00Z")));
        Assert.NotEmpty(Serials(await page.Page("/ledger?from=2020-01-01T00:00:00Z&to=2999-01-01T00:00:00Z")));
    }

    [Theory]
    [InlineData("/ledger?from=yesterday", "is not an instant")]
    [InlineData("/ledger?below=-1", "the serial of an entry was expected")]
    public async Task What_can_not_be_read_is_said_and_nothing_is_listed(string path, string said)
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);

        using var reply = await page.Get(path);

        Assert.Equal(HttpStatusCode.BadRequest, reply.StatusCode);
        var shown = await reply.Content.ReadAsStringAsync();
        Assert.Contains(said, shown, StringComparison.Ordinal);
        Assert.Empty(Serials(shown));
    }

    [Fact]
    public async Task An_answer_says_what_came_of_it()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        using var line = await bench.Line();
        await line.Ask("measured fixture=pinbed-1 diameter=92.405mm lot=A1077");
        var answer = await line.Ask("locate fixture=pinbed-1 lot=A1077");
        var serial = LineClient.Value(answer, "serial")!;
        var before = await page.Page($"/entry/{serial}");
        Assert.Contains("Not received", before, StringComparison.Ordinal);
        Assert.Contains("Not carried out", before, StringComparison.Ordinal);

        await line.Ask($"confirm serial={serial} {string.Join(' ', Regex.Matches(answer, "b[xyz]=[^ ]+").Select(m => m.Value))}");
        await line.Ask($"done serial={serial}");
        await line.Ask("emptied fixture=pinbed-1");

        var after = await page.Page($"/entry/{serial}");
        Assert.DoesNotContain("Not received", after, StringComparison.Ordinal);
        Assert.All(["Received", "Carried out", "Superseded by"], what => Assert.Contains($"<dt>{what}</dt>", after, StringComparison.Ordinal));
        using var reader = LedgerReader.Open(Path.Combine(bench.Folder, "data"));
        var row = reader.Find(long.Parse(serial))!;
        Assert.Contains(Convert.ToHexStringLower(row.Hash), after, StringComparison.Ordinal);
        Assert.Contains("<dt>shiftBase</dt>", after, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_working_of_an_answer_comes_out_as_recorded()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        using var line = await bench.Line();
        var answer = await line.Ask("locate fixture=pinbed-1 diameter=92.4mm");
        var serial = LineClient.Value(answer, "serial")!;

        var working = await page.Page($"/entry/{serial}/working");

        Assert.Contains("comes out as it was recorded", working, StringComparison.Ordinal);
        Assert.Contains("<section class=\"working\">", working, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/entry/999999")]
    [InlineData("/entry/999999/working")]
    [InlineData("/entry/0")]
    [InlineData("/entry/-1")]
    [InlineData("/entry/x")]
    [InlineData("/entry")]
    [InlineData("/entry/1/2/3")]
    [InlineData("/ledger/1")]
    public async Task What_is_not_there_is_said_so(string path)
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);

        using var reply = await page.Get(path);

        Assert.Equal(HttpStatusCode.NotFound, reply.StatusCode);
    }

    [Fact]
    public async Task A_client_without_the_role_reads_nothing()
    {
        await using var bench = await Bench.Start(configure: s => s["Clients"]!.AsArray().Insert(0, new JsonObject
        {
            ["Name"] = "tablet", ["From"] = new JsonArray("127.0.0.9"), ["Roles"] = new JsonArray("measure", "locate", "calibrate"),
        }));
        using var tablet = new PageClient(bench.Service.Page!, "127.0.0.9");

        foreach (var path in new[] { "/ledger", "/entry/1", "/entry/1/working", "/review", "/review?at=1", "/review/report?at=1", "/note" })
        {
            using var reply = await tablet.Get(path);
            Assert.Equal(HttpStatusCode.Forbidden, reply.StatusCode);
            Assert.DoesNotContain("service-started", await reply.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Hostile_texts_are_shown_as_texts()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        var serial = await Hold(bench, "pinbed-1", Hostile, Hostile);

        foreach (var path in new[]
        {
            "/ledger", $"/entry/{serial}", $"/entry/{serial}/working", $"/review?at={serial}", $"/review/report?at={serial}",
            $"/ledger?tag={Uri.EscapeDataString("\">" + Hostile)}", $"/note?about={Uri.EscapeDataString("\">" + Hostile)}",
        })
        {
            Assert.DoesNotContain("<script>", await page.Page(path), StringComparison.Ordinal);
        }
    }

    private static async Task<long> Hold(Bench bench, string fixture, string by, string why) =>
        (await new V1.FixtureService.FixtureServiceClient(bench.Channel).HoldAsync(new() { Fixture = fixture, By = by, Why = why })).Serial;

    private static List<long> Serials(string page) =>
        [.. Regex.Matches(page, "class=\"which\"><a href=\"/entry/([0-9]+)\"").Select(m => long.Parse(m.Groups[1].Value))];
}
