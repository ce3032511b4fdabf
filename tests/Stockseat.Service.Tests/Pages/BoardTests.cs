using System.Net;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Microsoft.Extensions.Time.Testing;
using Stockseat.Service.Tests.Support;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Pages;

/// <summary>What the board says.</summary>
public sealed class BoardTests
{
    private const string Hostile = "</dd><script>document.title='mine'</script>\u202e\"'<img src=x onerror=alert(1)>";

    [Fact]
    public async Task The_board_says_which_fixtures_answer_and_why_others_do_not()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        await bench.MeasureAll();
        Assert.Contains("All 3 fixtures answer", await page.Page("/"), StringComparison.Ordinal);

        await new FixtureService.FixtureServiceClient(bench.Channel).HoldAsync(new() { Fixture = "veerack-2", By = "day setter", Why = "vees are cleaned" });

        var board = await page.Page("/");
        Assert.Contains("2 of 3 fixtures answer", board, StringComparison.Ordinal);
        Assert.Matches("(?s)<ul class=\"silent\">[^#]*<li>.*#fixture-veerack-2.*held by day setter", board);
        Assert.Matches("(?s)class=\"fixture refuses\">\\s*<h2>veerack-2</h2>.*Does not answer", board);
        Assert.Contains("vees are cleaned", board, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_board_says_which_fixtures_have_to_be_measured_first()
    {
        var time = new FakeTimeProvider(DateTimeOffset.UtcNow);
        await using var bench = await Bench.Start(time);
        using var page = new PageClient(bench.Service.Page!);
        using var line = await bench.Line();
        Assert.Contains("All 3 fixtures wait for a measurement", await page.Page("/"), StringComparison.Ordinal);
        await bench.MeasureAll();

        await line.Ask("emptied fixture=pinbed-1");
        var board = await page.Page("/");
        Assert.Contains("2 of 3 fixtures answer", board, StringComparison.Ordinal);
        Assert.Matches("(?s)<ul class=\"silent\">[^#]*<li>.*#fixture-pinbed-1.*: measure first", board);
        Assert.Matches("(?s)class=\"fixture measures\">\\s*<h2>pinbed-1</h2>.*Measure first.*the nests were emptied", board);
        Assert.Matches("(?s)Measure first.*the nests were emptied", await page.Page("/fixture/pinbed-1"));
        Assert.Matches("(?s)pinbed-1, measure first:.*the nests were emptied", await page.Page("/handover"));

        // Whoever states diameters needs no measurement.
        await line.Ask("locate fixture=pinbed-1 diameter=92.4mm");
        Assert.Contains("All 3 fixtures answer", await page.Page("/"), StringComparison.Ordinal);

        time.Advance(TimeSpan.FromHours(9));
        board = await page.Page("/");
        Assert.Contains("1 of 3 fixtures answers", board, StringComparison.Ordinal);
        Assert.Matches("(?s)class=\"fixture measures\">\\s*<h2>veerack-2</h2>.*s old; it may be used for at most 28800 s", board);
    }

    [Fact]
    public async Task The_board_follows_an_answer_until_it_is_carried_out()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        using var line = await bench.Line();
        await line.Ask("measured fixture=pinbed-1 diameter=92.405mm lot=A1077");
        var answer = await line.Ask("locate fixture=pinbed-1 lot=A1077");
        var serial = LineClient.Value(answer, "serial")!;
        var pins = Pins(await page.Page("/"));
        Assert.Equal(
            ("A1077", "92.405 mm", "not yet: no correct read-back came", "not yet", "yes: run it at reduced speed, with people clear"),
            (pins["Lot"], pins["Diameter"], pins["Received"], pins["Carried out"], pins["First"]));
        Assert.Matches($"^pick at nest 0,0, 92.405 mm, [0-9]+ s ago \\(entry {serial}\\)$", pins["Last answer"]);

        var shift = string.Join(' ', Regex.Matches(answer, "b[xyz]=[^ ]+").Select(m => m.Value));
        await line.Ask($"confirm serial={serial} {shift}");
        pins = Pins(await page.Page("/"));
        Assert.Equal(("yes", "not yet"), (pins["Received"], pins["Carried out"]));

        await line.Ask($"done serial={serial}");
        pins = Pins(await page.Page("/"));
        Assert.Equal(("yes", "yes"), (pins["Received"], pins["Carried out"]));
        Assert.DoesNotContain("First", pins.Keys);
    }

    [Fact]
    public async Task Lengths_are_in_the_unit_of_the_display()
    {
        await using var bench = await Bench.Start(configure: s => s["Display"] = new JsonObject { ["Length"] = "in", ["Paper"] = "Letter" });
        using var page = new PageClient(bench.Service.Page!);
        using var line = await bench.Line();
        await line.Ask("measured fixture=pinbed-1 diameter=3.638in");

        var board = await page.Page("/");

        Assert.Equal("3.6380 in", Pins(board)["Diameter"]);
        Assert.Contains("<body class=\"letter\">", board, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_client_sees_its_own_fixtures_only_and_buttons_for_what_it_may_do()
    {
        await using var bench = await Bench.Start(configure: s => s["Clients"]!.AsArray().Insert(0, new JsonObject
        {
            ["Name"] = "tablet", ["From"] = new JsonArray("127.0.0.9"), ["Roles"] = new JsonArray("measure"), ["Fixtures"] = new JsonArray("pinbed-1"),
        }));
        using var tablet = new PageClient(bench.Service.Page!, "127.0.0.9");

        var board = await tablet.Page("/");

        Assert.Contains("The fixture waits for a measurement", board, StringComparison.Ordinal);
        Assert.DoesNotContain("veerack-2", board, StringComparison.Ordinal);
        Assert.DoesNotContain("/hold/", board, StringComparison.Ordinal);
        Assert.Contains("Client: tablet", board, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Hostile_texts_are_shown_as_texts()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        var hold = await new FixtureService.FixtureServiceClient(bench.Channel).HoldAsync(new() { Fixture = "pinbed-1", By = Hostile, Why = Hostile });

        foreach (var text in new[] { await page.Page("/"), await page.Page("/hold/pinbed-1"), await page.Page($"/release/pinbed-1/{hold.Serial}") })
        {
            Assert.Contains("&lt;script&gt;document.title=&#x27;mine&#x27;", text, StringComparison.Ordinal);
            Assert.DoesNotContain("<script>", text, StringComparison.Ordinal);
            Assert.DoesNotContain("<img", text, StringComparison.Ordinal);
            Assert.DoesNotContain('\u202e', text);
            Assert.DoesNotContain("202E", text, StringComparison.OrdinalIgnoreCase);
        }
    }

    [Fact]
    public async Task The_board_refreshes_by_our_script_by_the_browser_or_not_at_all()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        using var script = await page.Get("/");
        using var reload = await page.Get("/?refresh=reload");
        using var off = await page.Get("/?refresh=off");

        Assert.Contains("/files/board.js", await script.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Equal((false, true, false), (script.Headers.Contains("Refresh"), reload.Headers.Contains("Refresh"), off.Headers.Contains("Refresh")));
        Assert.DoesNotContain("<script", await reload.Content.ReadAsStringAsync() + await off.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Another_clients_entry_is_not_shown_as_just_done()
    {
        await using var bench = await Bench.Start(configure: s => s["Clients"]!.AsArray().Insert(0, new JsonObject
        {
            ["Name"] = "tablet", ["From"] = new JsonArray("127.0.0.9"), ["Roles"] = new JsonArray("measure"),
        }));
        using var tablet = new PageClient(bench.Service.Page!, "127.0.0.9");
        using var own = new PageClient(bench.Service.Page!);
        var hold = await new FixtureService.FixtureServiceClient(bench.Channel).HoldAsync(new() { Fixture = "pinbed-1", By = "setter", Why = "x" });

        Assert.Contains($"Recorded as entry {hold.Serial}: pinbed-1 held by setter: x", await own.Page($"/?entry={hold.Serial}"), StringComparison.Ordinal);
        Assert.DoesNotContain("Recorded as", await tablet.Page($"/?entry={hold.Serial}"), StringComparison.Ordinal);
        Assert.DoesNotContain("Recorded as", await own.Page("/?entry=999"), StringComparison.Ordinal);
    }

    /// <summary>The terms and texts of the pin bed.</summary>
    private static Dictionary<string, string> Pins(string board)
    {
        var part = Regex.Match(board, "(?s)<li id=\"fixture-pinbed-1\".*?</li>").Value;
        return Regex.Matches(part, "<dt>(.*?)</dt>\\s*<dd>(.*?)</dd>").ToDictionary(m => m.Groups[1].Value, m => WebUtility.HtmlDecode(m.Groups[2].Value));
    }
}
