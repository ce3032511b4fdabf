using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using Microsoft.Extensions.Time.Testing;
using Stockseat.Ledger.Reading;
using Stockseat.Service.Pages;
using Stockseat.Service.Tests.Support;

namespace Stockseat.Service.Tests.Pages;

/// <summary>A page changes nothing that its caller may not change, and nothing twice.</summary>
public sealed class HoldPageTests
{
    private const string Path = "/hold/pinbed-1";

    private static readonly (string, string)[] Said = [("by", "day setter"), ("why", "pins are cleaned")];

    [Fact]
    public async Task A_hold_and_its_release_are_recorded_with_who_and_why()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);

        await bench.MeasureAll();

        using var held = await page.Post(Path, [("form", await page.Token(Path)), .. Said]);

        Assert.Equal(HttpStatusCode.SeeOther, held.StatusCode);
        var hold = Newest(bench);
        Assert.Equal($"/?entry={hold["serial"]}#fixture-pinbed-1", $"{held.Headers.Location}");
        Assert.Equal(("held", "day setter", "pins are cleaned", "bench"), (Text(hold, "kind"), Text(hold, "by"), Text(hold, "why"), Text(hold, "client")));
        Assert.Matches("^page-[0-9a-f]{32}$", Text(hold, "request"));

        var release = $"/release/pinbed-1/{hold["serial"]}";
        using var released = await page.Post(release, ("form", await page.Token(release)), ("of", "day setter"), ("by", "foreman"), ("why", "pins are clean"));

        Assert.Equal(HttpStatusCode.SeeOther, released.StatusCode);
        var end = Newest(bench);
        Assert.Equal(("released", "foreman", "day setter"), (Text(end, "kind"), Text(end, "by"), Text(end, "of")));
        Assert.Matches("(?s)class=\"fixture answers\">\\s*<h2>pinbed-1</h2>", await page.Page($"{released.Headers.Location}"));
    }

    [Fact]
    public async Task A_form_that_is_sent_twice_is_one_entry()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        (string, string)[] form = [("form", await page.Token(Path)), .. Said];

        var replies = await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => page.Post(Path, form)));

        Assert.All(replies, r => Assert.Equal((HttpStatusCode.SeeOther, replies[0].Headers.Location), (r.StatusCode, r.Headers.Location)));
        Assert.Single(Bodies(bench), b => Text(b, "kind") == "held");
    }

    [Fact]
    public async Task A_release_that_is_sent_again_gets_the_first_outcome()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        (await page.Post(Path, [("form", await page.Token(Path)), .. Said])).Dispose();
        var release = $"/release/pinbed-1/{Newest(bench)["serial"]}";
        (string, string)[] form = [("form", await page.Token(release)), ("of", "day setter"), .. Said];

        using var first = await page.Post(release, form);
        using var again = await page.Post(release, form);

        Assert.Equal((HttpStatusCode.SeeOther, first.Headers.Location), (again.StatusCode, again.Headers.Location));
        Assert.Single(Bodies(bench), b => Text(b, "kind") == "released");
    }

    [Theory]
    [InlineData(null)]
    [InlineData("null")]
    [InlineData("http://evil.example")]
    [InlineData("http://127.0.0.1:1")]
    public async Task A_form_from_elsewhere_is_refused_and_nothing_is_written(string? origin)
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        var token = await page.Token(Path);

        await WritesNothing(bench, HttpStatusCode.Forbidden, () => page.PostFrom(origin, Path, [("form", token), .. Said]));
    }

    [Fact]
    public async Task A_request_by_a_name_that_is_not_ours_is_refused_and_nothing_is_written()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        var form = new FormUrlEncodedContent([new("form", await page.Token(Path)), new("by", "x"), new("why", "x")]);

        await WritesNothing(bench, HttpStatusCode.Forbidden, () => page.Send(
            HttpMethod.Post, Path, form, ("Host", "evil.example"), ("Origin", "http://evil.example")));
        await WritesNothing(bench, HttpStatusCode.Forbidden, () => page.Get(Path, ("Host", "evil.example")));
    }

    [Fact]
    public async Task A_form_that_was_open_for_too_long_is_shown_again_with_what_was_typed_and_can_be_sent_then()
    {
        var time = new FakeTimeProvider(DateTimeOffset.UtcNow);
        await using var bench = await Bench.Start(time);
        using var page = new PageClient(bench.Service.Page!);
        var old = await page.Token(Path);
        await time.Pass(FormTokens.Life + TimeSpan.FromMinutes(1));
        var before = Bodies(bench).Count(b => Text(b, "kind") == "held");

        using var late = await page.Post(Path, [("form", old), .. Said]);
        var shown = await late.Content.ReadAsStringAsync();

        Assert.Equal(HttpStatusCode.Conflict, late.StatusCode);
        Assert.Contains("Nothing was recorded", shown, StringComparison.Ordinal);
        Assert.Contains("value=\"day setter\"", shown, StringComparison.Ordinal);
        Assert.Equal(before, Bodies(bench).Count(b => Text(b, "kind") == "held"));
        Assert.Equal(FormTokens.RequestOf(old), FormTokens.RequestOf(PageClient.TokenIn(shown))); // It may have been sent before a restart.

        using var fresh = await page.Post(Path, [("form", PageClient.TokenIn(shown)), .. Said]);
        Assert.Equal(HttpStatusCode.SeeOther, fresh.StatusCode);
    }

    [Fact]
    public async Task A_form_from_before_a_restart_is_the_same_form_after_it()
    {
        await using var bench = await Bench.Start();
        string token, shown;
        using (var page = new PageClient(bench.Service.Page!))
        {
            token = await page.Token(Path);
            (await page.Post(Path, [("form", token), .. Said])).Dispose();
        }

        await bench.Restart();
        using var after = new PageClient(bench.Service.Page!);
        using (var stale = await after.Post(Path, [("form", token), .. Said]))
        {
            Assert.Equal(HttpStatusCode.Conflict, stale.StatusCode);
            shown = await stale.Content.ReadAsStringAsync();
        }

        using var again = await after.Post(Path, [("form", PageClient.TokenIn(shown)), .. Said]);
        Assert.Equal(HttpStatusCode.SeeOther, again.StatusCode);
        Assert.Single(Bodies(bench), b => Text(b, "kind") == "held");
    }

    [Theory]
    [InlineData("", "why")]
    [InlineData("setter", "")]
    [InlineData("   ", "why")]
    public async Task A_form_in_which_something_is_missing_is_shown_again_and_nothing_is_written(string by, string why)
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        var token = await page.Token(Path);

        await WritesNothing(bench, HttpStatusCode.BadRequest, () => page.Post(Path, ("form", token), ("by", by), ("why", why)));
    }

    [Fact]
    public async Task A_client_without_the_role_gets_no_form_and_writes_nothing()
    {
        await using var bench = await Bench.Start(configure: s => s["Clients"]!.AsArray().Insert(0, new JsonObject
        {
            ["Name"] = "tablet", ["From"] = new JsonArray("127.0.0.9"), ["Roles"] = new JsonArray("measure", "locate", "review"),
        }));
        using var tablet = new PageClient(bench.Service.Page!, "127.0.0.9");
        using var own = new PageClient(bench.Service.Page!);
        using var seen = await tablet.Get(Path);
        Assert.Equal(HttpStatusCode.Forbidden, seen.StatusCode);

        // Another client's token is of no use to it either.
        var foreign = await own.Token(Path);
        await WritesNothing(bench, HttpStatusCode.Forbidden, () => tablet.Post(Path, [("form", foreign), .. Said]));
    }

    [Fact]
    public async Task What_is_not_a_form_is_refused_and_nothing_is_written()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        var token = await page.Token(Path);
        (string, string)[] own = [("Origin", page.Origin)];

        HttpContent[] others = [new StringContent("{}", Encoding.UTF8, "application/json"), new MultipartFormDataContent { { new StringContent("x"), "by" } }];
        foreach (var other in others)
        {
            await WritesNothing(bench, HttpStatusCode.BadRequest, () => page.Send(HttpMethod.Post, Path, other, own));
        }

        await WritesNothing(bench, HttpStatusCode.BadRequest, () => page.Post(Path, ("form", token), ("by", new('a', 70_000)), ("why", "x")));
        await WritesNothing(bench, HttpStatusCode.BadRequest, () => page.Post(Path, [("form", token), ("by", "another"), .. Said]));
        await WritesNothing(bench, HttpStatusCode.MethodNotAllowed, () => page.Send(HttpMethod.Put, Path, new StringContent("x"), own));
        await WritesNothing(bench, HttpStatusCode.NotFound, () => page.Get("/hold/nowhere-9"));
        await WritesNothing(bench, HttpStatusCode.NotFound, () => page.Get("/release/pinbed-1/1"));
    }

    private static async Task WritesNothing(Bench bench, HttpStatusCode status, Func<Task<HttpResponseMessage>> send)
    {
        var before = Bodies(bench).Count;
        using var reply = await send();
        Assert.Equal(status, reply.StatusCode);
        Assert.All(PageSecurity.Headers, h => Assert.Equal(h.Value, Assert.Single(reply.Headers.GetValues(h.Name))));
        Assert.Equal(before, Bodies(bench).Count);
    }

    private static JsonNode Newest(Bench bench) => Bodies(bench)[^1];

    private static string? Text(JsonNode body, string key) => (string?)body[key];

    private static List<JsonNode> Bodies(Bench bench)
    {
        using var reader = LedgerReader.Open(System.IO.Path.Combine(bench.Folder, "data"));
        return [.. reader.Newest(1000).Select(r => JsonNode.Parse(r.Body)!)];
    }
}
