using Stockseat.Seating.Quantities;

namespace Stockseat.Seating.Tests.Quantities;

public sealed class LengthUnitTests
{
    private static readonly LengthUnit Mm = LengthUnit.Millimetre;
    private static readonly LengthUnit In = LengthUnit.Inch;

    [Theory]
    [InlineData(0.0924, "92.400", "3.6378")]
    [InlineData(0.0254, "25.400", "1.0000")]
    [InlineData(-0.196787, "-196.787", "-7.7475")]
    [InlineData(0, "0.000", "0.0000")]
    [InlineData(10, "10000.000", "393.7008")]
    public void It_has_three_decimals_of_a_millimetre_and_four_of_an_inch(double metres, string mm, string inches)
    {
        Assert.Equal((mm, inches), (Mm.Fixed(metres), In.Fixed(metres)));
        Assert.Equal(($"{mm} mm", $"{inches} in"), (Mm.FixedText(metres), In.FixedText(metres)));
    }

    [Theory]
    [InlineData(0.08, "80 mm", "3.1496 in")]
    [InlineData(0.0381, "38.1 mm", "1.5 in")]
    [InlineData(0, "0 mm", "0 in")]
    public void Where_it_may_be_short_it_ends_with_its_last_digit(double metres, string mm, string inches) =>
        Assert.Equal((mm, inches), (Mm.Text(metres), In.Text(metres)));

    [Theory]
    [InlineData(0.0004, "+0.400", "+0.0157")]
    [InlineData(-0.0004, "-0.400", "-0.0157")]
    [InlineData(0, "0.000", "0.0000")]
    [InlineData(-1e-9, "0.000", "0.0000")]
    [InlineData(1e-9, "0.000", "0.0000")]
    public void Its_sign_is_told_either_way_but_for_zero(double metres, string mm, string inches) =>
        Assert.Equal((mm, inches), (Mm.Signed(metres), In.Signed(metres)));

    [Theory]
    [InlineData(0.000000001, "0.001", "0.0001")]
    [InlineData(0.0001234, "0.124", "0.0049")]
    [InlineData(0.000254, "0.254", "0.0100")]
    [InlineData(0, "0.000", "0.0000")]
    public void An_uncertainty_is_never_told_too_small(double metres, string mm, string inches) =>
        Assert.Equal((mm, inches), (Mm.Up(metres), In.Up(metres)));

    [Theory]
    [InlineData(0.0008, "0.8 mm", "0.031 in")]
    [InlineData(0.0019999, "1.99 mm", "0.078 in")]
    [InlineData(-0.000001, "overlap of 0.01 mm", "overlap of 0.001 in")]
    [InlineData(0.000009, "0 mm", "0 in")]
    public void A_gap_is_never_told_too_large(double metres, string mm, string inches) => Assert.Equal((mm, inches), (Mm.Gap(metres), In.Gap(metres)));

    [Theory]
    [InlineData(0.0922799, "92.2799", "3.63307")]
    [InlineData(0.0926, "92.600", "3.64567")]
    [InlineData(0.0000001, "0.0001", "0.000004")]
    [InlineData(0.0254, "25.400", "1.0000")]
    [InlineData(0, "0.000", "0.0000")]
    public void A_limit_is_told_to_its_last_digit_and_never_as_zero(double metres, string mm, string inches) =>
        Assert.Equal((mm, inches), (Mm.Fine(metres), In.Fine(metres)));

    [Fact]
    public void Two_lengths_that_differ_are_told_apart()
    {
        Assert.Equal(("92.400 mm", "92.500 mm"), Mm.Apart(0.0924, 0.0925));
        Assert.Equal(("92.4000 mm", "92.4001 mm"), Mm.Apart(0.0924, 0.0924001));
        Assert.Equal(("3.63780 in", "3.63783 in"), In.Apart(0.0924, 0.092401));
        Assert.Equal(("92.400000000 mm", "92.400000000 mm"), Mm.Apart(0.0924, 0.0924));
    }

    [Theory]
    [InlineData("mm")]
    [InlineData("in")]
    public void People_find_it_by_its_symbol(string symbol)
    {
        var unit = LengthUnit.Find(symbol)!;

        Assert.Equal((symbol, symbol), (unit.Symbol, unit.ToString()));
        Assert.Equal(0.0924, unit.Metres(unit.Of(0.0924)), 1e-15);
    }

    [Theory]
    [InlineData("m")]
    [InlineData("um")]
    [InlineData("IN")]
    [InlineData("")]
    public void Others_they_do_not_choose(string symbol) => Assert.Null(LengthUnit.Find(symbol));

    [Theory]
    [InlineData(0.0924, "0.092400")]
    [InlineData(-0.0000004, "0.000000")]
    public void Older_versions_told_metres(double metres, string text) => Assert.Equal(text, LengthUnit.Metre.Fixed(metres));

    [Theory]
    [InlineData(-1e-9)]
    [InlineData(-0.0)]
    [InlineData(-4.9e-7)]
    public void What_rounds_to_zero_from_below_has_no_sign(double value)
    {
        string[] texts =
        [
            .. new[] { Mm, In, LengthUnit.Metre }.SelectMany(u => new[]
            {
                u.Fixed(value), u.Fixed(value, -2), u.Short(value), u.Signed(value), u.SignedShort(value), u.Text(value), u.FixedText(value), u.Up(value),
                u.Ceiling(value, 0), u.Apart(value, 1).One,
            }),
            Rounded.Fixed(value, 0), Rounded.Fixed(value, 3), Rounded.Short(value, 4), Rounded.Signed(Rounded.Fixed(value, 2)),
        ];

        Assert.All(texts, t => Assert.DoesNotContain('-', t));
    }

    [Theory]
    [InlineData(1e300)]
    [InlineData(double.NaN)]
    [InlineData(double.NegativeInfinity)]
    public void What_a_forger_may_write_is_written_somehow(double metres) => Assert.All(new[] { Mm, In }, u => Assert.NotEmpty(u.Text(metres)));
}
