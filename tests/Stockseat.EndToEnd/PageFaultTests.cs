using System.Text.Json;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>
/// Strict checkers find no fault in any page, whatever it shows. The text of a page is the same in both builds, so the ordinary one is enough.
/// </summary>
public sealed class PageFaultTests() : OnBothBuilds(Build.Ordinary)
{
    private const string Hostile = "</dd><script>document.title='mine'</script>\u202e\"'<img src=x onerror=alert(1)>";

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
            "/measure/pinbed-1", "/measure/veerack-2?reading1=x&unit=mm&lot=A1077", "/emptied/pinbed-1", "/load/pinbed-1",
            "/measure/pinbed-1/check?reading1=92.405&unit=mm&lot=A1077",
            "/measure/pinbed-1/check?reading1=3,638&reading2=3.639&reading3=3.638&unit=in",
            "/measure/pinbed-1/check?reading1=3.638&reading2=3.64&unit=mm&lot=A1077",
            $"/measure/pinbed-1/check?reading1={new string('9', 40)}&unit=in", "/measure/pinbed-1/check?reading1=98&unit=mm", "/handover",
            "/handover?hours=8", "/lots", "/lots/check?lot=B2077&unit=mm&nominal=92,5&tolerance=h11", "/lots/check?lot=A1077&unit=mm&nominal=92&tolerance=h11",
            $"/lots/check?lot={Uri.EscapeDataString(Hostile)}&nominal=x",
        })
        {
            await IsWithoutFault("chromium", service, path);
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
            await IsWithoutFault("chromium", service, path);
        }
    }

    [Fact]
    public async Task Pages_look_well_in_Firefox_too()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        (await service.Ask("measured", "pinbed-1", "92.405mm", "--lot", "A1077")).Exits(0);
        (await service.Ask("locate", "pinbed-1", "--lot", "A1077")).Exits(0);

        await IsWithoutFault(
            "firefox", service, "/", "/measure", "/measure/pinbed-1", "/measure/pinbed-1/check?reading1=3,638&unit=in", "/lots", "/handover", "/ledger",
            "/entry/6", "/entry/6/working", "/review", "/review/report?at=6", "/note", "/fixture/pinbed-1?diameter=92.4mm", "/hold/pinbed-1",
            "/emptied/pinbed-1", "/done/6");
    }

    private static async Task IsWithoutFault(string browser, Service service, params string[] paths)
    {
        var run = await Node.BrowseIn(browser, "check_pages.js", [$"http://{service.Page}", .. paths]);
        Assert.True(run.Out.Length == 0, run.Out);
        run.Exits(0);
    }
}
