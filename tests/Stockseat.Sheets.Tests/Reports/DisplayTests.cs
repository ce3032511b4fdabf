using Stockseat.Answers.Locate;
using Stockseat.Audit.Reviewing;
using Stockseat.Audit.Showing;
using Stockseat.Seating.Quantities;
using Stockseat.Sheets.Entries;
using Stockseat.Sheets.Numbers;
using Stockseat.Sheets.Tests.Support;
using Stockseat.Tests.Support;

namespace Stockseat.Sheets.Tests.Reports;

/// <summary>The same review in either unit, in other zones, on either paper.</summary>
public sealed class DisplayTests
{
    private static readonly Display Inches = new(LengthUnit.Inch, TimeZoneInfo.FindSystemTimeZoneById("America/Chicago"), PaperSize.Letter);

    [Fact]
    public void In_inches_nothing_is_told_in_millimetres()
    {
        var review = ReviewFindings.With(SampleReviews.TenEntries(Repository.Fixtures) with { Findings = [], Summary = [] }, Inches);
        var report = new ReadReport(review, Inches);

        Assert.Contains("Lengths in inches.", report.Told("answers"), StringComparison.Ordinal);
        foreach (var id in new[] { "summary", "findings", "standing", "nests" })
        {
            Assert.DoesNotMatch(@"\d mm\b", report.Told(id));
        }
    }

    [Fact]
    public void The_headline_is_in_the_zone_of_the_rest_of_the_report()
    {
        var review = ReviewFindings.With(SampleReviews.TenEntries(Repository.Fixtures) with { Findings = [], Summary = [] }, Inches);
        var report = new ReadReport(review, Inches);

        Assert.Equal("What happened around 2026-03-12 08:05:12 UTC\u221205:00", report.Root.Descendants("h1").Single().Value);
        Assert.All(review.Summary.Take(1), s => Assert.DoesNotContain("13:0", s, StringComparison.Ordinal));
        Assert.Contains("08:0", review.Summary[0], StringComparison.Ordinal);
    }

    [Fact]
    public void The_paper_is_that_of_the_display()
    {
        Assert.Contains("size: Letter portrait;", new ReadReport(SampleReviews.TenEntries(Repository.Fixtures), Inches).Text, StringComparison.Ordinal);
        Assert.Contains("size: A4 portrait;", new ReadReport(SampleReviews.TenEntries(Repository.Fixtures)).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void An_answer_is_told_in_the_unit()
    {
        var answer = SampleReviews.TenEntries(Repository.Fixtures).Entries.Select(e => e.Body).OfType<AnswerBody>().First();

        Assert.Contains(" mm", EntryText.Of(answer, LengthUnit.Millimetre), StringComparison.Ordinal);
        Assert.Contains(" in", EntryText.Of(answer, LengthUnit.Inch), StringComparison.Ordinal);
        Assert.DoesNotContain(" mm", EntryText.Of(answer, LengthUnit.Inch), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(-1e-9)]
    [InlineData(-0.0)]
    public void A_printed_zero_has_no_sign(double metres)
    {
        Assert.Equal(("0.000", "0.0000"), (PrintedNumbers.Fixed(metres, LengthUnit.Millimetre), PrintedNumbers.Fixed(metres, LengthUnit.Inch)));
        Assert.Equal(("0.000", "0.0000"), (PrintedNumbers.Signed(metres, LengthUnit.Millimetre), PrintedNumbers.Signed(metres, LengthUnit.Inch)));
    }
}
