extern alias service;

using System.Text.RegularExpressions;
using service::Stockseat.Service.Pages.Reports;
using Stockseat.EndToEnd.Support;
using Stockseat.Ledger.Reviewing;
using Stockseat.Tests.Samples;

namespace Stockseat.EndToEnd;

/// <summary>The report of a review is a page that a strict reader finds nothing to blame in, and that does nothing in a browser.</summary>
public class ReportPageTests
{
    private const string Policy = "<meta http-equiv=\"Content-Security-Policy\"[^>]*>";

    private static readonly string Fixtures = Path.Combine(Repository.Root, "config", "fixtures");

    public static TheoryData<string> Samples => ["no entry", "10 entries", "300 entries", "clock set back", "hostile texts"];

    [Theory]
    [MemberData(nameof(Samples))]
    public async Task Report_HasNothingToFind(string sample)
    {
        var run = await Check(Page(sample));

        Assert.True(run.Out.Length == 0, run.Out);
        run.Exits(0);
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
    public async Task Report_WithASeededFault_IsFoundOut(string fault, string rule, string pattern, string replacement)
    {
        var page = Page("10 entries");
        var broken = Regex.Replace(page, pattern, replacement);
        Assert.True(page != broken, $"{fault} could not be seeded");

        var run = (await Check(broken)).Exits(1);

        Assert.Contains(rule, run.Lines.Select(l => l.GetProperty("rule").GetString()));
    }

    private static async Task<Run> Check(string page)
    {
        using var cell = new Cell();
        return await Node.Check(cell.Write("report.html", page));
    }

    private static string Page(string sample)
    {
        Review review = sample switch
        {
            "no entry" => SampleReviews.None(Fixtures),
            "10 entries" => SampleReviews.TenEntries(Fixtures),
            "300 entries" => SampleReviews.Many(Fixtures),
            "clock set back" => SampleReviews.ClockSetBack(Fixtures),
            _ => SampleReviews.HostileTexts(Fixtures),
        };
        return ReviewReport.Page(review, TimeZoneInfo.Utc, ReviewMaker.At.AddHours(2), "Maintenance 1");
    }
}
