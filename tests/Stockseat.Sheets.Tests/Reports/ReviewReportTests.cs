using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Audit.Showing;
using Stockseat.Ledger.Verifying;
using Stockseat.Sheets.Tests.Support;

namespace Stockseat.Sheets.Tests.Reports;

public class ReviewReportTests
{
    private static readonly Review Ten = SampleReviews.TenEntries(Repository.Fixtures);

    [Fact]
    public void ItsTitle_GivesTheInstantInTheZoneAndInUtc()
    {
        var report = new ReadReport(Ten);

        Assert.Equal("What happened around 2026-03-12 14:05:12 UTC+01:00", report.Root.Descendants("h1").Single().Value);
        Assert.Contains(
            "2026-03-12 14:05:12 (UTC+01:00, Works time), which is 2026-03-12 13:05:12 UTC", ReadReport.Words(report.Body.Element("header")!),
            StringComparison.Ordinal);
        Assert.Contains(
            "ledger 5f0c9a52-8a5e-4f2e-9d0b-6a8f7c1b2d3e, head at entry 88123", ReadReport.Words(report.Body.Element("header")!), StringComparison.Ordinal);
    }

    [Fact]
    public void InUtc_TheInstantIsGivenOnce()
    {
        var report = new ReadReport(Ten, Display.Plain);

        Assert.Equal("What happened around 2026-03-12 13:05:12 UTC", report.Root.Descendants("h1").Single().Value);
        Assert.DoesNotContain("which is", ReadReport.Words(report.Body.Element("header")!), StringComparison.Ordinal);
    }

    [Fact]
    public void TheSummary_ComesFirst_ItsFirstSentenceAsTheHeading()
    {
        var report = new ReadReport(Ten);

        var first = report.Body.Element("main")!.Elements().First();
        Assert.Equal($"In short: {Ten.Summary[0]}", ReadReport.Words(first.Element("h2")!));
        Assert.Equal(Ten.Summary.Skip(1), first.Elements("p").Select(p => p.Value));
    }

    [Fact]
    public void WithoutASummary_TheFirstFindingIsTheHeading_OrElseWhatWasLookedFor()
    {
        Assert.Contains(Ten.Findings[0].What, new ReadReport(Ten with { Summary = [] }).Told("summary"), StringComparison.Ordinal);
        Assert.Contains(
            "The rules found nothing to look at", new ReadReport(Ten with { Summary = [], Findings = [] }).Told("summary"), StringComparison.Ordinal);
    }

    [Fact]
    public void EachFinding_IsNumbered_AndLinksToTheRowsOfItsEntries()
    {
        var report = new ReadReport(Ten);

        var items = report.Section("findings").Descendants("li").ToList();
        Assert.Equal(Ten.Findings.Count, items.Count);
        Assert.Equal("1", items[0].Element("span")!.Value);
        Assert.Equal(["#entry-1047", "#entry-1048"], items[0].Descendants("a").Select(a => a.Attribute("href")!.Value));
        Assert.Contains($"Why it matters: {Ten.Findings[0].Why}", ReadReport.Words(items[0]), StringComparison.Ordinal);
        Assert.Contains($"Next: {Ten.Findings[0].Next}", ReadReport.Words(items[0]), StringComparison.Ordinal);
        Assert.Contains("1007 (not in the table)", ReadReport.Words(items[3]), StringComparison.Ordinal);
    }

    [Fact]
    public void EveryLink_LeadsToSomethingOnThePage_AndEveryIdAppearsOnce()
    {
        foreach (var review in new[]
        {
            Ten, SampleReviews.Many(Repository.Fixtures), SampleReviews.ClockSetBack(Repository.Fixtures), SampleReviews.HostileTexts(Repository.Fixtures),
        })
        {
            var report = new ReadReport(review);
            var ids = report.Root.Descendants().Select(e => e.Attribute("id")?.Value).OfType<string>().ToList();

            Assert.Equal(ids.Count, ids.Distinct().Count());
            Assert.All(report.Root.Descendants("a"), a => Assert.Contains(a.Attribute("href")!.Value[1..], ids));
            Assert.All(
                report.Root.Descendants().Select(e => e.Attribute("aria-labelledby")?.Value).OfType<string>().SelectMany(v => v.Split(' ')), id =>
                    Assert.Contains(id, ids));
        }
    }

    [Fact]
    public void EveryRule_HasAName()
    {
        var rules = Enum.GetValues<FindingRule>();
        var report = new ReadReport(Ten with { Findings = [.. rules.Select(r => new ReviewFinding(r, [], null, "what", "why", "next"))] });

        var names = report.Section("findings").Descendants("p").Where(p => p.Attribute("class")?.Value == "rule").Select(p => p.Value).ToList();
        Assert.Equal(rules.Length, names.Distinct().Count());
        Assert.All(names, name => Assert.DoesNotContain(name, rules.Select(r => r.ToString())));
    }

    [Fact]
    public void TheAnswers_AreATable_WithTheBasisOfEach()
    {
        // By hand for 88.12 mm: √(50.36² − 30²) − √(46² − 30²) = 5.578 mm along the seat axis (−0.576, 0.768, 0.28).
        var rows = new ReadReport(Ten).Rows("answers");

        Assert.Equal(2, rows.Length);
        Assert.Equal(
            [
                "1042 13:57:12.345", "robot-4 pinbed-1 pick 0,0", "88.120 1041, lot A1072", "3", "−3.213", "+4.284", "+1.562", "–", "0.187", "first",
                "by 1043",
            ],
            rows[0]);
        Assert.Equal(
            [
                "1047 14:04:50.845 findings 1, 2, 4", "robot-4 pinbed-1 pick 0,0", "88.120 stated by the "
                    + "client", "3", "−3.213", "+4.284", "+1.562", "0.000", "0.187",
                "", "refused: 1048 NEVER",
            ], rows[1]);
    }

    [Fact]
    public void UnknownValues_AreReportedAsNotKnown()
    {
        var answers = Ten.Answers.Select(a => a with { Answer = a.Answer with { Uncertainty = null }, Follows = false, Measurement = null }).ToList();
        var rows = new ReadReport(Ten with { Answers = answers }).Rows("answers");

        Assert.Equal("not known", rows[0][8]);
        Assert.Equal("88.120 1041, not found", rows[0][2]);
        Assert.EndsWith("does not follow", rows[0][0], StringComparison.Ordinal);
    }

    [Fact]
    public void AllEntries_AreATable_WithTheInstantBetween()
    {
        var rows = new ReadReport(Ten).Rows("entries");

        Assert.Equal(11, rows.Length);
        Assert.Equal(["the instant, 14:05:12.345"], rows[8]);
        Assert.Equal("the nests were emptied or refilled: the measurement before this is void", rows[3][5]);
        Assert.Equal(Convert.ToHexStringLower(Ten.Entries[3].Row.Hash)[..12], rows[3][6]);
    }

    [Fact]
    public void TheNest_IsDrawn_WithTheDiameterServedAndTheOneMeasured()
    {
        var caption = ReadReport.Words(new ReadReport(Ten).Section("nests").Descendants("figcaption").Single());

        Assert.StartsWith("B: 88.12 mm, served last before the instant (entry 1047, 14:04:50.845).", caption, StringComparison.Ordinal);
        Assert.Contains(
            "A: 95.46 mm, the MEASURED diameter that stood at the instant (entry 1045) and was not the one served. From B to A the centre differs by 4.5 mm",
            caption, StringComparison.Ordinal);
    }

    [Fact]
    public void TwoFixtures_AreEachDrawnAndDescribed()
    {
        var report = new ReadReport(SampleReviews.Many(Repository.Fixtures));

        Assert.Equal(["pinbed-1", "veerack-2"], report.Section("standing").Elements("h3").Select(h => h.Value));
        Assert.Equal(2, report.Section("nests").Elements("figure").Count());
        Assert.Matches(
            @"^B: 88\.157 mm, served last .* A: 89\.\d+ mm, served before that .* From A to B the centre moved by [\d.]+ mm",
            ReadReport.Words(report.Section("nests").Descendants("figcaption").First()));
    }

    [Fact]
    public void AMissingRevision_IsReported_AndNothingIsDrawn()
    {
        var report = new ReadReport(Ten with { Adoptions = [] });

        Assert.Contains("This nest can't be drawn: the entry that adopted revision 3 was not found.", report.Told("nests"), StringComparison.Ordinal);
        Assert.Empty(report.Section("nests").Descendants("svg"));
    }

    [Fact]
    public void WithoutEntries_TheReportSaysSo()
    {
        var report = new ReadReport(SampleReviews.None(Repository.Fixtures));

        Assert.Contains("The ledger has no entry in these minutes.", report.Told("summary"), StringComparison.Ordinal);
        Assert.Contains("There are no entries in these minutes.", report.Told("entries"), StringComparison.Ordinal);
        Assert.Empty(report.Root.Descendants("table"));
    }

    [Fact]
    public void EntriesLeftOut_AreReportedProminently_BeforeTheFindings()
    {
        var report = new ReadReport(Ten with { LeftOut = 5120 });

        var loud = report.Body.Element("main")!.Elements().ElementAt(1);
        Assert.Equal("loud", loud.Attribute("class")!.Value);
        Assert.StartsWith("NOT ALL ENTRIES ARE HERE. 5120 more entries are in these minutes; the 10 nearest", loud.Value, StringComparison.Ordinal);
        Assert.Contains("5120 entries of these minutes NOT SHOWN", report.Told("entries"), StringComparison.Ordinal);
    }

    [Fact]
    public void WithoutAVerification_ItSaysSo_AndHowToVerify()
    {
        var told = new ReadReport(Ten).Told("evidence");

        Assert.Contains("NOT VERIFIED for this report. To do so: stockseat ledger verify --data DIR", told, StringComparison.Ordinal);
        Assert.Contains("3 answers, 2 refusals and 5 other entries (entries 1041 to 1050): all came out as recorded", told, StringComparison.Ordinal);
        Assert.Contains(Ten.HeadHash, told, StringComparison.Ordinal);
    }

    [Fact]
    public void AVerification_IsReportedWithItsFaultsSealsAndFindings()
    {
        var whole = new Verification(88123, Ten.Ledger, 88123, Ten.HeadHash, [], ["unsealed tail: 7 entries"], null) { Seals = new(12, 88116, "key1") };
        var told = new ReadReport(Ten with { Evidence = Ten.Evidence with { Whole = whole } }).Told("evidence");
        var broken = new ReadReport(
            Ten with
            {
                Evidence = Ten.Evidence with
                {
                    ChainFault = "entry 1044 is missing", Whole = whole with { Faults = [new(1044, "gap", "entry 1044 is missing")], Seals = null },
                },
            }).Told("evidence");

        Assert.Contains(
            "intact: 88123 entries up to 88123, no fault seals 12 good seals, up to entry 88116, key key1 note unsealed tail: 7 entries", told,
            StringComparison.Ordinal);
        Assert.Contains("NOT AS THEY WERE WRITTEN: entry 1044 is missing", broken, StringComparison.Ordinal);
        Assert.Contains("NOT INTACT: 1 fault in 88123 entries fault entry 1044: entry 1044 is missing seals no good seal", broken, StringComparison.Ordinal);
    }

    [Fact]
    public void AReplayThatDiffers_IsReportedWithItsEntries()
    {
        var replay = Ten.Evidence.Replay with { Differences = [new(1047, "answer", "bx comes out as 0.001", [])], MoreDifferences = 3 };
        var told = new ReadReport(Ten with { Evidence = Ten.Evidence with { Replay = replay } }).Told("evidence");

        Assert.Contains("NOT ALL CAME OUT THE SAME: 4 of 3 answers", told, StringComparison.Ordinal);
        Assert.Contains("entry 1047: bx comes out as 0.001 not the same 3 more", told, StringComparison.Ordinal);
    }

    [Fact]
    public void ItsEnd_SaysWhoMadeIt_AndThatItIsNotARelease()
    {
        var report = new ReadReport(Ten, by: "Maintenance 1");

        Assert.Contains("This report is not a release to restart.", report.Told("cautions"), StringComparison.Ordinal);
        Assert.Matches(@"^Made 2026-03-12 16:05:12 UTC\+01:00 by Maintenance 1 with Stockseat \d+\.\d+\.\d+", ReadReport.Words(report.Body.Element("footer")!));
    }
}
