using System.Text.RegularExpressions;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>The report of a review is a page in which strict checkers find no fault, and that does nothing in a browser.</summary>
public sealed class ReportPageTests(WorkingDays days) : IClassFixture<WorkingDays>
{
    private const string Policy = "<meta http-equiv=\"Content-Security-Policy\"[^>]*>";

    private static Built Program => Built.Ordinary;

    [Theory]
    [InlineData("2026-11-25T12:00:00Z", "1min")] // no entry
    [InlineData("2026-11-25T14:15:01Z", "2min")]
    [InlineData("2026-11-25T14:15:01Z", "10h")] // the whole day, with the clock set back
    public async Task The_report_of_a_day_has_no_fault(string at, string before)
    {
        var day = await days.Get(Program);

        await IsSound(await Report(day.Cell, "--at", at, "--before", before));
    }

    [Fact]
    public async Task The_report_of_300_entries_has_no_fault()
    {
        using var cell = new Cell();
        (await Tool.Run(Repository.LoadProgram, ["generate", "--data", cell.Data, "--entries", "300"])).Exits(0);

        var page = await Report(cell, "--at", "150", "--before", "240h", "--after", "240h");

        Assert.Equal(300, Regex.Count(page, "<tr[^>]* id=\"entry-"));
        await IsSound(page);
    }

    [Fact]
    public async Task The_report_of_hostile_texts_shows_them_and_runs_nothing()
    {
        using var cell = new Cell();
        const string Text = "</style><script>document.title='mine'</script>\u202e\"'{}&\n<img src=x onerror=alert(1)>";
        await using (var service = await Program.Serve(cell))
        {
            (await service.Ask("fixture", "hold", "pinbed-1", "--by", Text, "--why", Text)).Exits(0);
            (await service.Ask("locate", "pinbed-1", "--diameter", "92.4mm")).Exits(1);
            (await service.Ask("fixture", "release", "pinbed-1", "--by", Text, "--why", Text)).Exits(0);
        }

        var page = await Report(cell, "--at", "6");

        Assert.Contains("&lt;script&gt;", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", page, StringComparison.Ordinal);
        Assert.DoesNotContain('\u202e', page);
        await IsSound(page);
    }

    public static TheoryData<string, string, string, string> Faults => new()
    {
        { "an image without words", "image-alt", "<h2 id=\"answers\">", "<img src=\"data:image/gif;base64,R0lGODlhAQABAAAAACw=\"/><h2 id=\"answers\">" },
        { "a table without heads", "td-has-header", "<(/?)th(?: class=\"[^\"]*\")?(?: scope=\"[^\"]*\")?>", "<$1td>" },
        { "a heading of a wrong level", "heading-order", "<h2 id=\"standing\">(.*)</h2>", "<h4 id=\"standing\">$1</h4>" },
        { "pale letters", "color-contrast", "color: #000; background: #fff;", "color: #bbb; background: #fff;" },
        { "a page too wide for a tablet", "fits", "max-width: 60rem", "min-width: 80rem" },
        { "an element that is not closed", "close-order", "</figcaption>", "" },
        { "a script", "no-script", Policy, "<script>document.title = 'mine'</script>" },
        { "a style sheet from elsewhere", "no-request", Policy, "<link rel=\"stylesheet\" href=\"no-such.css\"/>" },
    };

    [Theory]
    [MemberData(nameof(Faults))]
    public async Task A_report_with_a_planted_fault_is_found_faulty(string fault, string rule, string pattern, string replacement)
    {
        var day = await days.Get(Program);
        var page = await Report(day.Cell, "--at", "46", "--before", "2min");
        var broken = Regex.Replace(page, pattern, replacement);
        Assert.True(page != broken, $"{fault} could not be planted");

        var run = (await Check(broken)).Exits(1);

        Assert.Contains(rule, run.Lines.Select(l => l.GetProperty("rule").GetString()));
    }

    private static async Task<string> Report(Cell cell, params string[] question)
    {
        var file = Path.Combine(cell.Folder, $"{Guid.NewGuid():N}.html");
        (await Program.Run(["ledger", "review", "--data", cell.Data, "--html", file, .. question])).Exits(0);
        return await File.ReadAllTextAsync(file);
    }

    private static async Task IsSound(string page)
    {
        var run = await Check(page);
        Assert.True(run.Out.Length == 0, run.Out);
        run.Exits(0);
    }

    private static async Task<Run> Check(string page)
    {
        using var cell = new Cell();
        return await Node.Check(cell.Write("report.html", page));
    }
}
