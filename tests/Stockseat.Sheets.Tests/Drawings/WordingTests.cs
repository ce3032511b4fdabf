using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Quantities;

namespace Stockseat.Sheets.Tests.Drawings;

public sealed class WordingTests
{
    private static readonly Obstacle[] Obstacles = [new("door post", new(1, 1), new(1, 1), 0.02, null)];

    [Theory]
    [InlineData(PartyKind.Stock, 0, 0, 0, "stock")]
    [InlineData(PartyKind.Stock, 0, 0, 1, "stock of nest 0,1")]
    [InlineData(PartyKind.Jaw, 2, 0, 0, "jaw 2")]
    [InlineData(PartyKind.Palm, 0, 0, 0, "palm")]
    [InlineData(PartyKind.Pin, 1, 0, 0, "pin 1")]
    [InlineData(PartyKind.Pin, 1, 1, 0, "pin 1 of nest 1,0")]
    [InlineData(PartyKind.Face, 2, -1, 0, "face 2 of nest -1,0")]
    [InlineData(PartyKind.Obstacle, 1, 0, 0, "door post (at nest 0,0)")]
    [InlineData(PartyKind.Obstacle, 1, -3, 0, "door post (at nest 3,0)")]
    public void Bodies_have_their_names(PartyKind kind, int number, int column, int row, string expected) =>
        Assert.Equal(expected, Wording.Of(new Party(kind, number, column, row), Obstacles));

    [Fact]
    public void A_gap_of_the_jaws_says_whether_they_are_open_or_closed()
    {
        Assert.Equal("jaw 2 (open) to pin 1 of nest 1,0", Wording.Of(new GapReading(new(PartyKind.Jaw, 2), new(PartyKind.Pin, 1, 1), Jaws.Open, 0.0008), []));
        Assert.Equal(
            "stock to door post (at nest 0,0)", Wording.Of(new GapReading(new(PartyKind.Stock), new(PartyKind.Obstacle, 1), Jaws.None, 0.0008), Obstacles));
    }

    [Fact]
    public void Every_constraint_has_words_of_its_own()
    {
        var gap = new GapReading(new(PartyKind.Jaw, 2), new(PartyKind.Pin, 1, 1), Jaws.Closed, 0.002);
        var ends = Enum.GetValues<Constraint>().Select(c => new EnvelopeEnd(0.1, c, c == Constraint.Gap ? gap : null, 0.002));
        var said = ends.Select(e => Wording.Of(e, [], LengthUnit.Millimetre)).ToArray();

        Assert.Equal(said.Length, said.Distinct().Count());
        Assert.All(said, s => Assert.False(string.IsNullOrWhiteSpace(s)));
        Assert.Contains("gap of 2 mm, jaw 2 (closed) to pin 1 of nest 1,0", said);
    }

    [Theory]
    [InlineData(0.0008, "0.8 mm")]
    [InlineData(0.0019999, "1.99 mm")]
    [InlineData(0.002, "2 mm")]
    [InlineData(0.000009, "0 mm")]
    [InlineData(-0.000001, "overlap of 0.01 mm")]
    [InlineData(-0.0027251, "overlap of 2.73 mm")]
    public void A_gap_is_never_stated_too_large(double metres, string expected) => Assert.Equal(expected, LengthUnit.Millimetre.Gap(metres));

    [Theory]
    [InlineData(0.0924, "92.4 mm")]
    [InlineData(0.09241, "92.41 mm")]
    [InlineData(0.0000004, "0 mm")]
    [InlineData(5, "5000 mm")]
    public void Lengths_are_written_plainly(double metres, string expected) => Assert.Equal(expected, LengthUnit.Millimetre.Text(metres));
}
