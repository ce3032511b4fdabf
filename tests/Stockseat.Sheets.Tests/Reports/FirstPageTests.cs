using Stockseat.Answers.Entries;
using Stockseat.Answers.Notes;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Audit.Showing;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;
using Stockseat.Sheets.Entries;
using Stockseat.Sheets.Tests.Support;

namespace Stockseat.Sheets.Tests.Reports;

/// <summary>What stands on a report's first page, and the words of people among the entries.</summary>
public class FirstPageTests
{
    [Fact]
    public void AFinding_SaysHowFarItMayHaveSentTheRobot_AndThatTheLastAnswerRestsOnIt()
    {
        var ten = SampleReviews.TenEntries(Repository.Fixtures);
        var report = new ReadReport(ten with
        {
            Findings = [ten.Findings[0] with { MovedMetres = 0.0064261, OnLastAnswer = true }, ten.Findings[1] with { MovedMetres = 0 }, ten.Findings[2]],
        });

        var items = report.Section("findings").Descendants("li").Select(ReadReport.Words).ToList();
        Assert.Contains("May have sent the robot up to 6.426 mm off. The last answer before the instant rests on it. ", items[0], StringComparison.Ordinal);
        Assert.All(items.Skip(1), i => Assert.DoesNotContain("May have sent", i, StringComparison.Ordinal));
    }

    [Fact]
    public void WhatAnAdoptionChanged_FollowsTheFindings_InTheUnitOfTheReader()
    {
        var ten = SampleReviews.TenEntries(Repository.Fixtures);
        RevisionChange[] changes =
        [
            new("taught.diameter", "0.08", "0.0635", "m"), new("taught.position.x", "0.4123", "0.41230001", "m"),
            new("gripper.clocking", "0.5235987755982988", null, "rad"), new("calibrated.by", "setter 1", "setter 2"), new("layout[0].count", "6", "4"),
        ];
        var review = ten with { Changes = [new(1044, SampleReviews.Pins, 3, 4, changes), new(1045, SampleReviews.Pins, 4, 5, [])] };

        var report = new ReadReport(review, Display.Plain with { Length = LengthUnit.Inch });

        Assert.Equal(
            [
                ["taught.diameter", "3.1496 in", "2.5000 in"], ["taught.position.x", "16.232283 in", "16.232284 in"],
                ["gripper.clocking", "30 deg", "not stated"], ["calibrated.by", "setter 1", "setter 2"], ["layout[0].count", "6", "4"],
            ],
            report.Rows("changes"));
        var told = report.Told("changes");
        Assert.Contains("pinbed-1: from revision 3 to 4, entry 1044", told, StringComparison.Ordinal);
        Assert.Contains("from revision 4 to 5, entry 1045 Only the number differs: all values are the same.", told, StringComparison.Ordinal);
        var order = report.Body.Element("main")!.Elements("section").Select(s => s.Attribute("aria-labelledby")!.Value).ToList();
        Assert.Equal(["summary", "findings", "changes"], order.Take(3));
    }

    [Fact]
    public void WithoutAnAdoptionAmongTheFindings_NothingIsSaidOfChanges() =>
        Assert.DoesNotContain("What the revisions changed", new ReadReport(SampleReviews.TenEntries(Repository.Fixtures)).Text, StringComparison.Ordinal);

    [Fact]
    public void ANote_StandsBehindTheEntryThatItIsAbout_AlsoWhenItWasWrittenLater()
    {
        var ten = SampleReviews.TenEntries(Repository.Fixtures);
        var note = new NoteBody
        {
            Serial = 2001, At = EntryTime.Text(ReviewMaker.At.AddHours(1)), By = "fitter", Text = "gripper hit pin 2 of nest 3,0", Entry = 1047,
        };
        var report = new ReadReport(ten with { Older = [.. ten.Older, new(ten.Entries[0].Row with { Serial = 2001 }, note)] });

        var rows = report.Rows("entries");
        var at = Array.FindIndex(rows, r => r[0] == "1047");
        Assert.Equal(["noted by fitter: \u201Cgripper hit pin 2 of nest 3,0\u201D (entry 2001, 15:05:12.345)"], rows[at + 1]);
        Assert.Equal("1048", rows[at + 2][0]);
    }

    [Fact]
    public void AChange_OfValuesThatDifferOnlyFarBehindThePoint_ShowsTheDifference() => Assert.Equal(
        ("412.30000 mm", "412.30001 mm"), ChangeText.Of(new("taught.position.x", "0.4123", "0.41230001", "m"), LengthUnit.Millimetre));
}
