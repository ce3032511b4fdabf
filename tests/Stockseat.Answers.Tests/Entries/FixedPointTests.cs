using System.Globalization;
using System.Numerics;
using CsCheck;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Tests.Entries;

public sealed class FixedPointTests
{
    [Theory]
    [InlineData(0.008213, 0, 6, "8213")]
    [InlineData(-0.0000005, 0, 6, "0")]
    [InlineData(-999, 0, 6, "-999000000")]
    [InlineData(0.0924, 1, 3, "92.4")]
    [InlineData(-0.196787, 3, 3, "-196.787")]
    [InlineData(999, 12, 3, "999000.000000000000")]
    [InlineData(-999, 12, 0, "-999.000000000000")]
    public void A_length_is_written_in_its_unit(double metres, int decimals, int exponent, string text)
    {
        Assert.Equal(text, FixedPoint.Text(metres, decimals, exponent));
        Assert.True(FixedPoint.TryCompare(text, metres, decimals, out var same, exponent));
        Assert.True(same);
    }

    private static readonly Gen<double> Values = Gen.OneOf(Gen.Double[-1000, 1000], Gen.Double[-1e-5, 1e-5],
        Gen.Long[-9_000_000, 9_000_000].Select(n => n / 1e6));

    [Fact]
    public void The_text_is_the_nearest_decimal() => Gen.Select(Values, Gen.Int[0, 12]).Sample((value, decimals) =>
    {
        var text = FixedPoint.Text(value, decimals);

        // Exact: the double is m/2^1074. Rounding may add half a last digit and one rounding of the product, nothing more.
        var shown = BigInteger.Parse(text.Replace(".", "", StringComparison.Ordinal), CultureInfo.InvariantCulture);
        var exact = Exact(value) * BigInteger.Pow(10, decimals);
        var off = BigInteger.Abs((shown << 1074) - exact);
        Assert.True(off <= (BigInteger.One << 1073) + (BigInteger.Abs(exact) >> 53), $"{value:R} with {decimals} decimals was written {text}");
    }, iter: 20_000);

    [Fact]
    public void The_text_has_the_plain_form() => Gen.Select(Values, Gen.Int[0, 12]).Sample((value, decimals) =>
    {
        var text = FixedPoint.Text(value, decimals);

        Assert.Matches(decimals == 0 ? @"\A-?(0|[1-9]\d*)\z" : $@"\A-?(0|[1-9]\d*)\.\d{{{decimals}}}\z", text);
        Assert.False(text[0] == '-' && text.All(c => c is '-' or '0' or '.'), $"negative zero: {text}");
    });

    [Fact]
    public void A_served_number_reads_back_as_the_same_number() => Gen.Select(Values, Gen.Int[0, 12]).Sample((value, decimals) =>
        FixedPoint.TryCompare(FixedPoint.Text(value, decimals), value, decimals, out var same) && same);

    [Fact]
    public void A_number_that_differs_by_one_in_the_last_decimal_differs() => Gen.Select(Values, Gen.Int[0, 12]).Sample((value, decimals) =>
    {
        var other = decimal.Parse(FixedPoint.Text(value, decimals), CultureInfo.InvariantCulture) + new decimal(1, 0, 0, false, (byte)decimals);
        return FixedPoint.TryCompare(other.ToString(CultureInfo.InvariantCulture), value, decimals, out var same) && !same;
    });

    [Theory]
    [InlineData(0.0, 6, "0.000000")]
    [InlineData(-0.0000004, 6, "0.000000")]
    [InlineData(-0.0000006, 6, "-0.000001")]
    [InlineData(0.5, 0, "0")]
    [InlineData(1.5, 0, "2")]
    [InlineData(2.5, 0, "2")]
    [InlineData(-0.4, 0, "0")]
    [InlineData(9.9999996, 6, "10.000000")]
    [InlineData(-0.196787, 6, "-0.196787")]
    [InlineData(1234567.25, 1, "1234567.2")]
    [InlineData(-9000000.0, 12, "-9000000.000000000000")]
    public void Known_texts(double value, int decimals, string text) => Assert.Equal(text, FixedPoint.Text(value, decimals));

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    [InlineData(1e13)]
    public void A_value_without_such_a_text_is_never_written(double value) => Assert.Throws<OverflowException>(() => FixedPoint.Text(value));

    [Fact]
    public void A_negative_zero_is_written_as_zero() => Assert.Equal("0.000000", FixedPoint.Text(-0.0));

    [Fact]
    public void A_decimal_comma_locale_changes_nothing()
    {
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");

            Assert.Equal("0,5", 0.5.ToString(CultureInfo.CurrentCulture));
            Assert.Equal("1234.500000", FixedPoint.Text(1234.5));
            Assert.True(FixedPoint.TryCompare("1234.5", 1234.5, 6, out var same) && same);
            Assert.False(FixedPoint.TryCompare("1234,5", 1234.5, 6, out _));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Theory]
    [InlineData("0.008213", true)]
    [InlineData("0.00821300", true)]
    [InlineData("00.0082130", true)]
    [InlineData("0.0082134", true)]
    [InlineData("0.0082136", false)]
    [InlineData("0.00821", false)]
    [InlineData("0.008214", false)]
    [InlineData("-0.008213", false)]
    [InlineData("8.213", false)]
    [InlineData("0", false)]
    [InlineData("999999999999.999999999999999", false)]
    public void Numbers_are_compared_at_the_decimals_served(string text, bool expected)
    {
        Assert.True(FixedPoint.TryCompare(text, 0.0082131, 6, out var same));
        Assert.Equal(expected, same);
    }

    [Theory]
    [InlineData("")]
    [InlineData("-")]
    [InlineData(".5")]
    [InlineData("-.5")]
    [InlineData("5.")]
    [InlineData("+0.008213")]
    [InlineData("--0.008213")]
    [InlineData("0.008213-")]
    [InlineData("8.213e-3")]
    [InlineData("0.008213m")]
    [InlineData("0,008213")]
    [InlineData("1,000.0")]
    [InlineData("0.008.213")]
    [InlineData(" 0.008213")]
    [InlineData("0.008213 ")]
    [InlineData("NaN")]
    [InlineData("0\u0660")]
    [InlineData("(1)")]
    [InlineData("0.0000000000000001")]
    [InlineData("1000000000000")]
    public void A_text_that_is_not_a_plain_number_is_recognised(string text)
    {
        Assert.False(FixedPoint.TryCompare(text, 0.0082131, 6, out var same));
        Assert.False(same);
    }

    /// <summary>The double times 2^1074, exactly.</summary>
    private static BigInteger Exact(double value)
    {
        var bits = BitConverter.DoubleToInt64Bits(value);
        var (exponent, fraction) = ((int)((bits >> 52) & 0x7FF), bits & 0xFFFFFFFFFFFFF);
        var number = exponent == 0 ? fraction : (new BigInteger(fraction | 1L << 52) << (exponent - 1));
        return bits < 0 ? -number : number;
    }
}
