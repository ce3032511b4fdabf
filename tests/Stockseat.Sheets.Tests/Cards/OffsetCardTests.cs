using System.Text.RegularExpressions;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;
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
        var card = Card(Display.Plain, null);

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
        var card = Card(Inches, null);

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
        new[] { Display.Plain, Inches }, display => Assert.Empty(NegativeZero().Matches(Words(Card(display, null)))));

    /// <summary>The far corner of the demo's tilted bed: 5 · 125 mm along u = (0.8, 0.6, 0), 3 · 130 mm along v = (−0.576, 0.768, 0.28).</summary>
    [Fact]
    public void It_says_in_base_words_what_the_revision_means()
    {
        var words = Words(Card(Display.Plain, null));

        Assert.Contains("What the revision means in the robot&#39;s base", words, StringComparison.Ordinal);
        Assert.Contains("mostly towards +y: x \u22120.", words, StringComparison.Ordinal);
        Assert.Contains("6 columns, 125 mm apart, run mostly towards +x: x +0.800, y +0.600, z 0.000.", words, StringComparison.Ordinal);
        Assert.Contains("The tool&#39;s z axis points squarely into the plan.", words, StringComparison.Ordinal);
        Assert.Contains("The seat axis rises 16.3 deg above level.", words, StringComparison.Ordinal);
        Assert.Matches(@"5,3\s+687\.660\s+469\.520\s+227\.200\s+27\.0732\s+18\.4850\s+8\.9449", words);
    }

    [Fact]
    public void It_says_whether_it_was_proven_or_what_was_lacking()
    {
        Assert.DoesNotContain("roven by rechecks", Card(Display.Plain, null), StringComparison.Ordinal);
        Assert.Contains("Proven by rechecks when this was printed, 2026-11-25 20:00 UTC.", Card(Display.Plain, []), StringComparison.Ordinal);
        Assert.Contains(
            "NOT PROVEN by rechecks when this was printed, 2026-11-25 14:00 -06:00. What was lacking: seat a master of 3.622 in or more in nest 0,0; seat a "
                + "master in nest 5,0.",
            Card(Inches, new Proof.Lack(0, 0, null, 0.092), new Proof.Lack(5, 0, null, null)), StringComparison.Ordinal);
    }

    private static string Card(Display display, params Proof.Lack[]? lacking)
    {
        var table = OffsetTable.Of(Plans.Demo("pinbed-1/r0003.json"), Purpose.Pick, (0, 0), null, new(StepMetres: 0.005), out _, out _)!;
        return OffsetCard.Page(table, new(true, "", null, lacking), new(2026, 11, 25, 20, 0, 0, TimeSpan.Zero), display);
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
