using System.Text.Json;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>The pages in a real browser: a keyboard is enough, mistakes do no harm, and nobody else's page changes anything.</summary>
public abstract class PageTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : PageTests(Build.Ordinary);

    public sealed class Native() : PageTests(Build.Native);

    [Theory]
    [InlineData("chromium", "on")]
    [InlineData("chromium", "off")]
    [InlineData("firefox", "on")]
    public async Task A_fixture_is_held_and_released_by_keyboard_and_mistakes_do_no_harm(string browser, string scripts)
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        (await service.Ask("measured", "pinbed-1", "92.4mm")).Exits(0);

        var seen = (await Node.BrowseIn(browser, "hold_fixture.js", $"http://{service.Page}", "pinbed-1", scripts)).Exits(0).Object;

        string Of(string step) => seen.GetProperty(step).GetString()!;
        Assert.EndsWith("Answers", Of("before"), StringComparison.Ordinal);
        Assert.All(["held", "reloaded", "sentAgain"], step => Assert.EndsWith("Does not answer", Of(step), StringComparison.Ordinal));
        Assert.EndsWith("pinbed-1 held by day setter: cleaning the nests", Of("said"), StringComparison.Ordinal);
        Assert.Equal("/hold/pinbed-1", Of("back"));
        Assert.EndsWith("Answers", Of("released"), StringComparison.Ordinal);
        Assert.Equal(0, (await service.Terminate()).ExitCode);
        var rows = LedgerRows.Read(cell.Data).Select(r => r.Kind).ToList();
        Assert.Equal(1, rows.Count(k => k == "released"));
        Assert.InRange(rows.Count(k => k == "held"), 1, 2); // Back may show a new form, which is another hold under the same name; the first one counts.
    }

    [Theory]
    [InlineData("chromium", "on")]
    [InlineData("chromium", "off")]
    [InlineData("firefox", "on")]
    public async Task Blanks_are_measured_with_an_inch_caliper_and_mistakes_do_no_harm(string browser, string scripts)
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);

        var seen = (await Node.BrowseIn(browser, "measure_blank.js", $"http://{service.Page}", "pinbed-1", "A1077", scripts)).Exits(0).Object;

        string Of(string step) => seen.GetProperty(step).GetString()!;
        Assert.Equal("/measure/pinbed-1", Of("withoutUnit"));
        Assert.Contains("This would be refused", Of("otherLot"), StringComparison.Ordinal);
        Assert.Contains("above lot A1077", Of("otherLot"), StringComparison.Ordinal);
        Assert.Equal("3.740", Of("kept"));
        Assert.EndsWith("This would be taken", Of("verdict"), StringComparison.Ordinal);
        Assert.StartsWith("1 3,638 in 92.405 3.6380 \u22120.013 2 3.6390 in 92.431 3.6390 +0.013", Of("understood"), StringComparison.Ordinal);
        Assert.Matches("by \\+[0-9.]+ \\+[0-9.]+", Of("shift"));
        Assert.True(seen.GetProperty("drawn").GetBoolean());
        Assert.Matches("Recorded as entry [0-9]+ The next ask uses it\\.$", Of("sent"));
        Assert.All(["reloaded", "forward"], step => Assert.Equal(Of("sent"), Of(step)));
        Assert.Equal(0, (await service.Terminate()).ExitCode);
        Assert.Single(LedgerRows.Read(cell.Data), r => r.Kind == "measurement");
        Assert.DoesNotContain(LedgerRows.Read(cell.Data), r => r.Kind == "refusal");
    }

    [Theory]
    [InlineData("chromium", "off")]
    [InlineData("firefox", "on")]
    public async Task A_keyboard_is_enough_to_describe_carry_out_adopt_and_note(string browser, string scripts)
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        LineReply answer;
        using (var line = await service.Connect())
        {
            answer = await line.Ask("locate fixture=pinbed-1 diameter=92.4mm");
            await line.Ask($"confirm serial={answer.Serial} bx={answer["bx"]} by={answer["by"]} bz={answer["bz"]}");
        }

        cell.Publish("pinbed-1", 3, 4);
        for (var i = 0; i < 100 && !(await service.Ask("fixture", "list", "--json")).Out.Contains("\"waiting\":[4]", StringComparison.Ordinal); i++)
        {
            await Task.Delay(100, TestContext.Current.CancellationToken);
        }

        var run = await Node.BrowseIn(browser, "work_by_keyboard.js", $"http://{service.Page}", "pinbed-1", "4", $"{answer.Serial}", scripts);

        var seen = run.Exits(0).Object;
        Assert.EndsWith("This would be taken", seen.GetProperty("lot").GetString(), StringComparison.Ordinal);
        Assert.Contains("lot B2077 was described, nominal 92.5 mm", seen.GetProperty("described").GetString(), StringComparison.Ordinal);
        var note = $"note by fitter: gripper touched pin 2 (about entry {answer.Serial})";
        Assert.Contains(note, seen.GetProperty("noted").GetString(), StringComparison.Ordinal);
        Assert.Equal(0, (await service.Terminate()).ExitCode);
        var rows = LedgerRows.Read(cell.Data).Select(r => r.Kind).ToList();
        Assert.All(["lot-described", "done", "note"], kind => Assert.Single(rows, kind));
        Assert.True(rows.LastIndexOf("revision-adopted") > rows.IndexOf("done"), string.Join(", ", rows)); // Others were adopted at the start.
    }

    [Fact]
    public async Task The_board_refreshes_in_place_and_says_when_it_is_old()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);

        var seen = (await Node.Browse("watch_board.js", $"http://{service.Page}", "veerack-2")).Exits(0).Object;

        Assert.Equal("None of 3 fixtures answers", seen.GetProperty("sum").GetString());
        Assert.Equal("/hold/veerack-2", seen.GetProperty("focused").GetString());
        const string Lost = "The service does not answer this page. What stands below was so at 20";
        Assert.StartsWith(Lost, seen.GetProperty("lost").GetString(), StringComparison.Ordinal);
        Assert.Equal(("lost", 1), (seen.GetProperty("firstChild").GetString(), seen.GetProperty("loads").GetInt32()));
    }

    [Fact]
    public async Task Pages_of_other_sites_change_nothing()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);

        var page = (await Node.Browse("foreign_page.js", $"http://{service.Page}", "pinbed-1")).Exits(0).Object;

        var replies = page.GetProperty("replies").EnumerateArray()
            .Select(r => (Way: r.GetProperty("way").GetString(), Status: r.GetProperty("status").GetInt32())).ToList();
        Assert.All(replies, r => Assert.Equal(403, r.Status));
        Assert.Equal(
            ["another port of this machine", "another site", "our pages under another name"], replies.Select(r => r.Way).Distinct().Take(3));
        Assert.Equal(0, (await service.Terminate()).ExitCode);
        Assert.DoesNotContain(LedgerRows.Read(cell.Data), r => r.Kind is "held" or "refusal");
    }
}
