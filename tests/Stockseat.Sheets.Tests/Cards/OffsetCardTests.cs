using System.Text.RegularExpressions;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Tabulating;
using Stockseat.Audit.Showing;
using Stockseat.Seating.Quantities;
using Stockseat.Sheets.Cards;
using Stockseat.Sheets.Tests.Drawings;

namespace Stockseat.Sheets.Tests.Cards;

public sealed partial class OffsetCardTests
{
    private static readonly Display Inches = new(LengthUnit.Inch, TimeZoneInfo.FindSystemTimeZoneById("America/Chicago"), PaperSize.Letter);

    [Fact]
    public void In_millimetres_on_A4()
    {
        var card = Card(Display.Plain);

        Assert.Contains("size: A4 portrait;", card, StringComparison.Ordinal);
        Assert.Contains("max-width: 186mm;", card, StringComparison.Ordinal);
        Assert.Contains("<dd>80 mm", card, StringComparison.Ordinal);
        Assert.Contains("SHIFT in base, mm", card, StringComparison.Ordinal);
        Assert.Contains("In force when this was printed, 2026-11-25 20:00 UTC.", card, StringComparison.Ordinal);
        Assert.Empty(InInches().Matches(Words(card)));
    }

    [Fact]
    public void In_inches_on_Letter_with_the_time_of_the_zone()
    {
        var card = Card(Inches);

        Assert.Contains("size: Letter portrait;", card, StringComparison.Ordinal);
        Assert.Contains("max-width: 191.9mm;", card, StringComparison.Ordinal);
        Assert.Contains("width=\"191.9mm\"", card, StringComparison.Ordinal);
        Assert.Contains("<dd>3.1496 in", card, StringComparison.Ordinal);
        Assert.Contains("SHIFT in base, inches", card, StringComparison.Ordinal);
        Assert.Contains("In force when this was printed, 2026-11-25 14:00 -06:00.", card, StringComparison.Ordinal);
        var setter = Plans.Demo("pinbed-1/r0003.json").Calibrated; // in words of their own
        var own = $"{setter.Method}; {setter.Note}";
        Assert.Contains(own, card, StringComparison.Ordinal);
        Assert.Empty(InMillimetres().Matches(Words(card.Replace(own, "", StringComparison.Ordinal))));
    }

    [Fact]
    public void No_number_on_it_is_a_negative_zero() => Assert.All(
        new[] { Display.Plain, Inches }, display => Assert.Empty(NegativeZero().Matches(Words(Card(display)))));

    private static string Card(Display display)
    {
        var table = OffsetTable.Of(Plans.Demo("pinbed-1/r0003.json"), Purpose.Pick, (0, 0), null, new(StepMetres: 0.005), out _, out _)!;
        return OffsetCard.Page(table, new(true, "", null), new(2026, 11, 25, 20, 0, 0, TimeSpan.Zero), display);
    }

    private static string Words(string page) => Tags().Replace(page[page.IndexOf("<body>", StringComparison.Ordinal)..], " ");

    [GeneratedRegex("<[^>]*>")]
    private static partial Regex Tags();

    [GeneratedRegex(@"\d mm\b")]
    private static partial Regex InMillimetres();

    [GeneratedRegex(@"\d in\b")]
    private static partial Regex InInches();

    [GeneratedRegex(@"[-\u2212]0(\.0*)?(?![.\d])")]
    private static partial Regex NegativeZero();
}
