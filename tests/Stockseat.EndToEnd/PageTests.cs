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

        var run = await Node.Browse(
            "check_pages.js", $"http://{service.Page}", "/", "/?refresh=off", "/?refresh=reload", "/hold/pinbed-1", $"/release/veerack-2/{hold}",
            "/no-such-page");

        Assert.True(run.Out.Length == 0, run.Out);
        run.Exits(0);
    }

    [Fact]
    public async Task Pages_of_the_ledger_have_no_fault_whatever_they_show()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        (await service.Ask("measured", "pinbed-1", "92.405mm", "--lot", "A1077")).Exits(0);
        var answer = (await service.Ask("locate", "pinbed-1", "--lot", "A1077", "--tag", new string('w', 64), "--json")).Exits(0).Object.GetProperty("serial");
        (await service.Ask("fixture", "hold", "veerack-2", "--by", Hostile, "--why", Hostile)).Exits(0);
        (await service.Ask("locate", "veerack-2", "--diameter", "50mm", "--tag", "17")).Fails(1, "refused: fixture-held: ");
        cell.Publish("rollers-3", 2, 3);
        var note = (await service.Ask("ledger", "note", Hostile, "--by", new string('w', 400), "--entry", $"{answer}", "--fixture", "pinbed-1", "--json"))
            .Exits(0).Object.GetProperty("serial");

        var run = await Node.Browse(
            "check_pages.js", $"http://{service.Page}", "/ledger", $"/ledger?kind=refusal&tag={Uri.EscapeDataString(Hostile)}", "/ledger?from=yesterday",
            "/entry/1", $"/entry/{answer}", $"/entry/{note}", $"/entry/{answer}/working", "/review", $"/review?at={answer}", $"/review/report?at={answer}",
            "/fixture/pinbed-1?diameter=92.4mm", "/fixture/veerack-2", "/fixture/pinbed-1?diameter=92", "/adopt/rollers-3/3", $"/done/{answer}",
            "/review?at=soon", $"/note?about={answer}", "/entry/999999");

        Assert.True(run.Out.Length == 0, run.Out);
        run.Exits(0);
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
