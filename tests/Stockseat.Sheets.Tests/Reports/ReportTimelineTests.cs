using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Sheets.Tests.Support;

namespace Stockseat.Sheets.Tests.Reports;

public class ReportTimelineTests
{
    [Fact]
    public void TheTimeline_SaysWhatItsMarksMean_AndRingsTheEntriesOfFindings()
    {
        var report = new ReadReport(SampleReviews.TenEntries(Repository.Fixtures));

        var texts = report.Section("timeline").Descendants("text").Select(t => t.Value).ToList();
        Assert.All(["measured", "emptied or refilled", "asked and answered", "refused", "confirmed", "held", "sealed"], name => Assert.Contains(name, texts));
        Assert.All(["[1,2,4] answer 1047", "[1] refusal 1048", "[2] measured 1045", "[3] refusal 1046"], label => Assert.Contains(label, texts));
        Assert.Contains("the instant 14:05:12", texts);
    }

    [Fact]
    public void ALaneWithoutEntries_SaysNone()
    {
        var texts = new ReadReport(SampleReviews.None(Repository.Fixtures)).Section("timeline").Descendants("text").Select(t => t.Value).ToList();

        Assert.All(
            ["measured, emptied: none", "asked and answered: none", "refused: none", "confirmed, done: none", "adopted, held: none",
                "service, notes: none"], name =>
                Assert.Contains(name, texts));
    }

    [Fact]
    public void AClockStep_BreaksTheTimeline()
    {
        var report = new ReadReport(SampleReviews.ClockSetBack(Repository.Fixtures));

        Assert.Contains("clock set back by 6 min 42.5 s", report.Section("timeline").Descendants("text").Select(t => t.Value));
        Assert.Contains("A double zigzag line: the clock was set there", report.Told("timeline"), StringComparison.Ordinal);
    }

    [Fact]
    public void AnInstantOfASerial_IsMarkedInThePartOfThatEntryOnly()
    {
        var review = SampleReviews.ClockSetBack(Repository.Fixtures);
        var before = review.Entries[3];
        var report = new ReadReport(review with { At = before.At, Then = before.Serial, Question = new ReviewQuestion { Serial = before.Serial } });

        Assert.Single(report.Section("timeline").Descendants("text"), t => t.Value.StartsWith("the instant", StringComparison.Ordinal));
        Assert.Equal(["the instant, 14:03:32.345"], report.Rows("entries")[4]);
    }

    [Fact]
    public void AnUnreadableEntry_HasAMarkOfItsOwn()
    {
        var texts = new ReadReport(SampleReviews.HostileTexts(Repository.Fixtures)).Section("timeline").Descendants("text").Select(t => t.Value).ToList();

        Assert.Contains("entry that can't be read", texts);
        Assert.Contains("?", texts);
    }
}
