using System.Net;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Stockseat.Ledger.Reading;
using Stockseat.Service.Pages;
using Stockseat.Service.Tests.Support;

namespace Stockseat.Service.Tests.Pages;

/// <summary>The pages of a review and of a note.</summary>
public sealed class ReviewPageTests
{
    [Fact]
    public async Task A_review_shows_what_happened_and_its_report_is_a_page_by_itself()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        using var line = await bench.Line();
        var serial = LineClient.Value(await line.Ask("locate fixture=pinbed-1 diameter=92.4mm"), "serial")!;

        var shown = await page.Page($"/review?at={serial}&fixture=pinbed-1");
        var report = await page.Page(WebUtility.HtmlDecode(Regex.Match(shown, "href=\"(/review/report[^\"]+)\"").Groups[1].Value));

        Assert.Contains("Not confirmed", shown, StringComparison.Ordinal);
        Assert.Contains($"href=\"/entry/{serial}\"", shown, StringComparison.Ordinal);
        Assert.Contains("What happened around", report, StringComparison.Ordinal);
        Assert.Contains("href=\"/files/report-a4.css\"", report, StringComparison.Ordinal);
        Assert.DoesNotContain("<style", report, StringComparison.Ordinal);
        Assert.DoesNotContain("style=\"", report, StringComparison.Ordinal);
        using var style = await page.Get("/files/report-a4.css");
        Assert.Equal(("text/css", HttpStatusCode.OK), (style.Content.Headers.ContentType?.MediaType, style.StatusCode));
    }

    [Theory]
    [InlineData("/review?at=soon", HttpStatusCode.BadRequest)]
    [InlineData("/review?at=1&before=-1", HttpStatusCode.BadRequest)]
    [InlineData("/review?at=1&after=1000000", HttpStatusCode.BadRequest)]
    [InlineData("/review?at=999999", HttpStatusCode.NotFound)]
    [InlineData("/review/other", HttpStatusCode.NotFound)]
    [InlineData("/review?at=2026-11-25T09:00:00Z", HttpStatusCode.OK)]
    [InlineData("/review", HttpStatusCode.OK)]
    public async Task A_question_is_answered_or_what_is_wrong_with_it_is_said(string path, HttpStatusCode status)
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);

        using var reply = await page.Get(path);

        Assert.Equal(status, reply.StatusCode);
    }

    [Fact]
    public async Task A_note_is_recorded_once_and_the_review_shows_it()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        using var line = await bench.Line();
        var serial = LineClient.Value(await line.Ask("locate fixture=pinbed-1 diameter=92.4mm"), "serial")!;
        var form = await page.Page($"/note?about={serial}");
        Assert.Matches("name=\"fixture\" type=\"text\" value=\"pinbed-1\"", form);
        (string, string)[] fields =
        [
            ("form", PageClient.TokenIn(form)), ("text", "gripper hit pin 2"), ("by", "maintenance"), ("about", serial), ("fixture", "pinbed-1"),
        ];

        using var first = await page.Post("/note", fields);
        using var again = await page.Post("/note", fields);

        Assert.Equal(HttpStatusCode.SeeOther, first.StatusCode);
        Assert.Equal(first.Headers.Location, again.Headers.Location);
        var note = Assert.Single(Bodies(bench), b => (string?)b["kind"] == "note");
        Assert.Equal(
            ("gripper hit pin 2", "maintenance", serial, "pinbed-1"),
            ((string?)note["text"], (string?)note["by"], $"{note["entry"]}", (string?)note["fixture"]));
        Assert.Contains("gripper hit pin 2", await page.Page($"/review?at={serial}"), StringComparison.Ordinal);
        Assert.Contains("gripper hit pin 2", await page.Page($"/entry/{serial}"), StringComparison.Ordinal);
        Assert.Contains("gripper hit pin 2", await page.Page($"{first.Headers.Location}"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", "maintenance", "", "")]
    [InlineData("hit", "", "", "")]
    [InlineData("hit", "maintenance", "999999", "")]
    [InlineData("hit", "maintenance", "soon", "")]
    [InlineData("hit", "maintenance", "", "Not A Fixture")]
    public async Task A_note_that_can_not_be_read_is_shown_again_and_nothing_is_written(string text, string by, string about, string fixture)
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        var token = await page.Token("/note");
        var before = Bodies(bench).Count;

        using var reply = await page.Post("/note", ("form", token), ("text", text), ("by", by), ("about", about), ("fixture", fixture));

        Assert.Equal(HttpStatusCode.BadRequest, reply.StatusCode);
        Assert.Equal(FormTokens.RequestOf(token), FormTokens.RequestOf(PageClient.TokenIn(await reply.Content.ReadAsStringAsync())));
        Assert.Equal(before, Bodies(bench).Count);
    }

    [Fact]
    public async Task A_note_from_elsewhere_or_without_the_role_is_refused_and_nothing_is_written()
    {
        await using var bench = await Bench.Start(configure: s => s["Clients"]!.AsArray().Insert(0, new JsonObject
        {
            ["Name"] = "tablet", ["From"] = new JsonArray("127.0.0.9"), ["Roles"] = new JsonArray("measure", "locate", "calibrate"),
        }));
        using var page = new PageClient(bench.Service.Page!);
        using var tablet = new PageClient(bench.Service.Page!, "127.0.0.9");
        (string, string)[] fields = [("form", await page.Token("/note")), ("text", "x"), ("by", "x")];
        var before = Bodies(bench).Count;

        using var foreign = await page.PostFrom("http://evil.example", "/note", fields);
        using var without = await tablet.Post("/note", fields);

        Assert.Equal((HttpStatusCode.Forbidden, HttpStatusCode.Forbidden), (foreign.StatusCode, without.StatusCode));
        Assert.Equal(before, Bodies(bench).Count);
    }

    private static List<JsonNode> Bodies(Bench bench)
    {
        using var reader = LedgerReader.Open(Path.Combine(bench.Folder, "data"));
        return [.. reader.Newest(1000).Select(r => JsonNode.Parse(r.Body)!)];
    }
}
