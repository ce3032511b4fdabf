using System.Text.Json;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>The pages in a real browser: strict checkers find no fault, a keyboard is enough, and nobody else's page changes anything.</summary>
public abstract class PageTests(Build build) : OnBothBuilds(build)
{
    private const string Hostile = "</dd><script>document.title='mine'</script>\u202e\"'<img src=x onerror=alert(1)>";

    public sealed class Ordinary() : PageTests(Build.Ordinary);

    public sealed class Native() : PageTests(Build.Native);

    [Fact]
    public async Task Pages_have_no_fault_whatever_they_show()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        (await service.Ask("measured", "pinbed-1", "92.405mm", "--lot", "A1077")).Exits(0);
        (await service.Ask("locate", "pinbed-1", "--lot", "A1077")).Exits(0);
        var hold = (await service.Ask("fixture", "hold", "veerack-2", "--by", Hostile, "--why", Hostile, "--json")).Exits(0).Object.GetProperty("serial");
        (await service.Ask("fixture", "hold", "veerack-2", "--by", new string('w', 400), "--why", "a name without a blank")).Exits(0);
        cell.Publish("rollers-3", 2, 3);

        foreach (var path in new[]
        {
            "/", "/?refresh=off", "/?refresh=reload", "/hold/pinbed-1", $"/release/veerack-2/{hold}", "/no-such-page", "/measure",
            "/measure/pinbed-1", "/measure/veerack-2?reading1=x&unit=mm&lot=A1077", "/emptied/pinbed-1",
            "/measure/pinbed-1/check?reading1=92.405&unit=mm&lot=A1077",
            "/measure/pinbed-1/check?reading1=3,638&reading2=3.639&reading3=3.638&unit=in",
            "/measure/pinbed-1/check?reading1=3.638&reading2=3.64&unit=mm&lot=A1077",
            $"/measure/pinbed-1/check?reading1={new string('9', 40)}&unit=in", "/measure/pinbed-1/check?reading1=98&unit=mm", "/handover",
            "/handover?hours=8",
        })
        {
            var run = await Node.Browse("check_pages.js", $"http://{service.Page}", path);
            Assert.True(run.Out.Length == 0, run.Out);
            run.Exits(0);
        }
    }

    [Fact]
    public async Task Pages_of_the_ledger_have_no_fault_whatever_they_show()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        (await service.Ask("measured", "pinbed-1", "92.405mm", "--lot", "A1077")).Exits(0);
        var answer = (await service.Ask("locate", "pinbed-1", "--lot", "A1077", "--tag", new string('w', 40), "--json")).Exits(0).Object.GetProperty("serial");
        (await service.Ask("fixture", "hold", "veerack-2", "--by", Hostile, "--why", Hostile)).Exits(0);
        (await service.Ask("locate", "veerack-2", "--diameter", "50mm", "--tag", "17")).Fails(1, "refused: fixture-held: ");
        cell.Publish("rollers-3", 2, 3);
        var note = (await service.Ask("ledger", "note", Hostile, "--by", new string('w', 400), "--entry", $"{answer}", "--fixture", "pinbed-1", "--json"))
            .Exits(0).Object.GetProperty("serial");

        foreach (var path in new[]
        {
            "/ledger", $"/ledger?kind=refusal&tag={Uri.EscapeDataString(Hostile)}", "/ledger?from=yesterday",
            "/entry/1", $"/entry/{answer}", $"/entry/{note}", $"/entry/{answer}/working", "/review", $"/review?at={answer}", $"/review/report?at={answer}",
            "/fixture/pinbed-1?diameter=92.4mm", "/fixture/veerack-2", "/fixture/pinbed-1?diameter=92", "/adopt/rollers-3/3", $"/done/{answer}",
            "/review?at=soon", $"/note?about={answer}", "/entry/999999",
        })
        {
            var run = await Node.Browse("check_pages.js", $"http://{service.Page}", path);
            Assert.True(run.Out.Length == 0, run.Out);
            run.Exits(0);
        }
    }

    [Theory]
    [InlineData("on")]
    [InlineData("off")]
    public async Task A_fixture_is_held_and_released_by_keyboard_and_mistakes_do_no_harm(string scripts)
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);

        var seen = (await Node.Browse("hold_fixture.js", $"http://{service.Page}", "pinbed-1", scripts)).Exits(0).Object;

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
    [InlineData("on")]
    [InlineData("off")]
    public async Task Blanks_are_measured_with_an_inch_caliper_and_mistakes_do_no_harm(string scripts)
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);

        var seen = (await Node.Browse("measure_blank.js", $"http://{service.Page}", "pinbed-1", "A1077", scripts)).Exits(0).Object;

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

    [Fact]
    public async Task The_board_refreshes_in_place_and_says_when_it_is_old()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);

        var seen = (await Node.Browse("watch_board.js", $"http://{service.Page}", "veerack-2")).Exits(0).Object;

        Assert.Equal("2 of 3 fixtures answer", seen.GetProperty("sum").GetString());
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
