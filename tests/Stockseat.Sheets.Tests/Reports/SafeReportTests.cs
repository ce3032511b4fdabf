using System.Text.RegularExpressions;
using System.Xml.Linq;
using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Sheets.Html;
using Stockseat.Sheets.Tests.Support;

namespace Stockseat.Sheets.Tests.Reports;

/// <summary>Whatever text others send, the page stays under our control: no script, nothing from outside, well-formed.</summary>
public class SafeReportTests
{
    public static TheoryData<string> Samples => ["ten", "none", "many", "clock", "hostile"];

    [Theory]
    [MemberData(nameof(Samples))]
    public void AReport_ParsesAsXml_AndLoadsNothing(string name)
    {
        var report = new ReadReport(Sample(name));

        Assert.DoesNotContain("<script", report.Text, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("http:", report.Text, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("https:", report.Text, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("url(", report.Text, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("javascript:", report.Text, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain(" on", string.Join(' ', report.Root.Descendants().Attributes().Select(a => $" {a.Name}")), StringComparison.OrdinalIgnoreCase);
        Assert.All(
            report.Root.Descendants().Attributes().Where(a => a.Name.LocalName is "href" or "src"), a =>
                Assert.StartsWith("#", a.Value, StringComparison.Ordinal));
        Assert.Equal(
            "default-src 'none'; style-src 'unsafe-inline'",
            report.Root.Descendants("meta").Single(m => m.Attribute("http-equiv") is not null).Attribute("content")!.Value);
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void AReport_HasOneH1_HeadingsInOrder_AndTablesWithHeaderRows(string name)
    {
        var report = new ReadReport(Sample(name));

        var levels = report.Body.Descendants().Select(e => Regex.Match(e.Name.LocalName, "^h([1-6])$")).Where(m => m.Success)
            .Select(m => m.Groups[1].Value[0] - '0').ToList();
        Assert.Equal(1, levels[0]);
        Assert.Single(levels, 1);
        Assert.All(levels.Zip(levels.Skip(1)), pair => Assert.True(pair.Second <= pair.First + 1));
        Assert.All(report.Root.Descendants("table"), t => Assert.NotEmpty(t.Element("caption")!.Value));
        Assert.All(report.Root.Descendants("th"), h => Assert.Contains(h.Attribute("scope")!.Value, new[] { "col", "row" }));
        Assert.All(report.Root.Descendants("figure"), f => Assert.NotEmpty(f.Element("figcaption")!.Value));
        Assert.All(report.Root.Descendants("figure").Elements("svg"), s => Assert.Equal("img", s.Attribute("role")!.Value));
    }

    [Fact]
    public void ForeignText_IsShownAsText_WithoutCharactersThatTurnOrBreakIt()
    {
        var report = new ReadReport(SampleReviews.HostileTexts(Repository.Fixtures));

        Assert.DoesNotContain(report.Text, c => c is '\u202E' or '\u0007' or '\uFFFF' or '\r' || char.IsSurrogate(c));
        Assert.Contains("held by </td><script>alert('1')</script>\"????{}]]>&??: </td>", report.Told("entries"), StringComparison.Ordinal);
        Assert.Contains("tag </td><script>alert('1')</script>\"????{}]]>&??", report.Told("answers"), StringComparison.Ordinal);
        Assert.Contains("lot </td><script>", report.Told("standing"), StringComparison.Ordinal);
        Assert.Empty(report.Root.Descendants("script"));
    }

    [Fact]
    public void ALedgersId_CannotEndTheStyleSheet()
    {
        var style = new ReadReport(SampleReviews.TenEntries(Repository.Fixtures) with { Ledger = "x\"; } </style> body { display: none } \\" })
            .Root.Descendants("style").Single().Value;

        Assert.Contains("content: \"ledger x?? ? ??style? body ? display: none ? ?, around 2026-03-12 14:05:12 UTC+01:00\";", style, StringComparison.Ordinal);
    }

    [Fact]
    public void AnUnreadableEntry_IsReportedAsUnreadable()
    {
        var told = new ReadReport(SampleReviews.HostileTexts(Repository.Fixtures)).Told("entries");

        Assert.Contains("NOT READABLE by this version of the program:", told, StringComparison.Ordinal);
    }

    [Fact]
    public void ATextThatIsNotAnInstant_IsShownAsItIs()
    {
        var review = SampleReviews.TenEntries(Repository.Fixtures);
        var entries = review.Entries.Select((e, i) => i == 2 ? e with { Row = e.Row with { At = "yesterday" } } : e).ToList();

        Assert.Contains("yesterday", new ReadReport(review with { Entries = entries }).Told("entries"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("a\u202Eb", "a?b")]
    [InlineData("a\r\n\tb", "a???b")]
    [InlineData("\u2028\u2029\uFEFF", "???")]
    [InlineData("\uD83D\uDD29 20°", "\uD83D\uDD29 20°")]
    [InlineData("\uFFFE\uFFFF", "??")]
    public void Clean_LeavesWhatPeopleRead(string text, string clean) => Assert.Equal(clean, PlainText.Clean(text));

    [Fact]
    public void Clean_RemovesHalfACharacter() => Assert.Equal("x?y", PlainText.Clean("x\uD83Dy"));

    private static Review Sample(string name) => name switch
    {
        "ten" => SampleReviews.TenEntries(Repository.Fixtures),
        "none" => SampleReviews.None(Repository.Fixtures),
        "many" => SampleReviews.Many(Repository.Fixtures),
        "clock" => SampleReviews.ClockSetBack(Repository.Fixtures),
        _ => SampleReviews.HostileTexts(Repository.Fixtures),
    };
}
