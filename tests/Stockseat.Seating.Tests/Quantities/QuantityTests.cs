using System.Globalization;
using System.Numerics;
using CsCheck;
using Stockseat.Seating.Quantities;
using Stockseat.Seating.Tests.Published;

namespace Stockseat.Seating.Tests.Quantities;

public class QuantityTests
{
    private static readonly (string Name, int Factor, int Exponent)[] Units = [("mm", 1, -3), ("m", 1, 0), ("um", 1, -6), ("in", 254, -4)];

    /// <summary>Digits without a point (length 0) or with a point after that many of them; sixty digits at most.</summary>
    private static readonly Gen<(string Whole, string Fraction)> Numbers = Gen.Select(Gen.Int[1, 30], Gen.Int[0, 30])
        .SelectMany(
            (whole, fraction) => Gen.Select(Gen.Char['0', '9'].Array[whole], Gen.Char['0', '9'].Array[fraction], (w, f) => (new string(w), new string(f))));

    [Theory]
    [MemberData(nameof(Inch.InMillimetres), MemberType = typeof(Inch))]
    public void AnInch_Is25Point4Millimetres(string inches, string millimetres) =>
        Assert.Equal(Length(millimetres), Length(inches));

    [Theory]
    [InlineData("3.638 in", 0.0924052)]
    [InlineData("3.638in", 0.0924052)]
    [InlineData("92.4052 mm", 0.0924052)]
    [InlineData("0.0924052m", 0.0924052)]
    [InlineData("92405.2 um", 0.0924052)]
    [InlineData("92.40mm", 0.0924)]
    [InlineData("2.75 in", 0.06985)]
    [InlineData("0 mm", 0)]
    [InlineData("0.000in", 0)]
    [InlineData("007 m", 7)]
    public void ALength_IsTheDoubleOfItsDecimalText(string text, double metres) => Assert.Equal(metres, Length(text));

    [Theory]
    [InlineData("", QuantityFault.Empty)]
    [InlineData("5", QuantityFault.UnitMissing)]
    [InlineData("5.0", QuantityFault.UnitMissing)]
    [InlineData("5 ", QuantityFault.UnitMissing)]
    [InlineData("5 furlong", QuantityFault.UnitUnknown)]
    [InlineData("5cm", QuantityFault.UnitUnknown)]
    [InlineData("5MM", QuantityFault.UnitUnknown)]
    [InlineData("5 In", QuantityFault.UnitUnknown)]
    [InlineData("5 µm", QuantityFault.UnitUnknown)]
    [InlineData("5\"", QuantityFault.UnitUnknown)]
    [InlineData("5 deg", QuantityFault.UnitUnknown)]
    [InlineData("5 kg", QuantityFault.UnitUnknown)]
    [InlineData("5mmm", QuantityFault.UnitUnknown)]
    [InlineData("1e3mm", QuantityFault.Malformed)]
    [InlineData("1E3 mm", QuantityFault.Malformed)]
    [InlineData("1e-3m", QuantityFault.Malformed)]
    [InlineData("1e3", QuantityFault.Malformed)]
    [InlineData("NaN", QuantityFault.Malformed)]
    [InlineData("NaN mm", QuantityFault.Malformed)]
    [InlineData("Infinity mm", QuantityFault.Malformed)]
    [InlineData("∞mm", QuantityFault.Malformed)]
    [InlineData("-5mm", QuantityFault.Malformed)]
    [InlineData("+5mm", QuantityFault.Malformed)]
    [InlineData("−5mm", QuantityFault.Malformed)]
    [InlineData("92,40mm", QuantityFault.Malformed)]
    [InlineData("1,000.5 mm", QuantityFault.Malformed)]
    [InlineData("1_000mm", QuantityFault.Malformed)]
    [InlineData("1'000mm", QuantityFault.Malformed)]
    [InlineData("٥mm", QuantityFault.Malformed)]
    [InlineData("5٥mm", QuantityFault.Malformed)]
    [InlineData("5.٥mm", QuantityFault.Malformed)]
    [InlineData("５mm", QuantityFault.Malformed)]
    [InlineData(".5mm", QuantityFault.Malformed)]
    [InlineData("5.mm", QuantityFault.Malformed)]
    [InlineData("5. mm", QuantityFault.Malformed)]
    [InlineData(".", QuantityFault.Malformed)]
    [InlineData("5.5.5mm", QuantityFault.Malformed)]
    [InlineData("5..5mm", QuantityFault.Malformed)]
    [InlineData("5 mm ", QuantityFault.Malformed)]
    [InlineData(" 5 mm", QuantityFault.Malformed)]
    [InlineData("5  mm", QuantityFault.Malformed)]
    [InlineData("5\tmm", QuantityFault.Malformed)]
    [InlineData("5\u00a0mm", QuantityFault.Malformed)]
    [InlineData("5 mm\n", QuantityFault.Malformed)]
    [InlineData("5mm\0", QuantityFault.Malformed)]
    [InlineData("5 m m", QuantityFault.Malformed)]
    [InlineData("5 5mm", QuantityFault.Malformed)]
    [InlineData("5mm2", QuantityFault.Malformed)]
    [InlineData("1/4in", QuantityFault.Malformed)]
    [InlineData("0x10mm", QuantityFault.Malformed)]
    [InlineData("mm", QuantityFault.Malformed)]
    [InlineData(" ", QuantityFault.Malformed)]
    [InlineData("five mm", QuantityFault.Malformed)]
    public void ABadText_HasItsFault_AndNoLength(string text, QuantityFault fault)
    {
        Assert.Equal(fault, Quantity.TryParseLength(text, allowSign: false, out var metres));
        Assert.Equal(0, metres);
    }

    [Theory]
    [InlineData("-5mm", QuantityFault.None, -0.005)]
    [InlineData("-0.5 in", QuantityFault.None, -0.0127)]
    [InlineData("5mm", QuantityFault.None, 0.005)]
    [InlineData("+5mm", QuantityFault.Malformed, 0)]
    [InlineData("--5mm", QuantityFault.Malformed, 0)]
    [InlineData("- 5mm", QuantityFault.Malformed, 0)]
    [InlineData("-", QuantityFault.Malformed, 0)]
    [InlineData("-mm", QuantityFault.Malformed, 0)]
    [InlineData("5-mm", QuantityFault.Malformed, 0)]
    [InlineData("-5", QuantityFault.UnitMissing, 0)]
    public void AMinus_IsAcceptedWhereItIsAllowed_APlusNever(string text, QuantityFault fault, double metres)
    {
        Assert.Equal(fault, Quantity.TryParseLength(text, allowSign: true, out var actual));
        Assert.Equal(metres, actual);
    }

    [Fact]
    public void MinusZero_IsPlainZero()
    {
        Assert.Equal(QuantityFault.None, Quantity.TryParseLength("-0.0 mm", allowSign: true, out var metres));
        Assert.False(double.IsNegative(metres));
    }

    [Theory]
    [InlineData(60, 0, QuantityFault.None)]
    [InlineData(59, 1, QuantityFault.None)]
    [InlineData(1, 59, QuantityFault.None)]
    [InlineData(61, 0, QuantityFault.TooLong)]
    [InlineData(60, 1, QuantityFault.TooLong)]
    [InlineData(1, 60, QuantityFault.TooLong)]
    [InlineData(1, 1_000_000, QuantityFault.TooLong)]
    public void SixtyDigits_AreAccepted_AndOneMoreIsNot(int whole, int fraction, QuantityFault fault)
    {
        var number = new string('9', whole) + (fraction > 0 ? "." + new string('9', fraction) : "");
        foreach (var (unit, _, _) in Units)
        {
            Assert.Equal(fault, Quantity.TryParseLength(number + unit, allowSign: false, out var metres));
            Assert.Equal(fault, Quantity.TryParseLength("-" + number + " " + unit, allowSign: true, out var negative));
            Assert.Equal(-metres, negative);
            Assert.Equal(fault == QuantityFault.None, metres > 0);
        }
    }

    [Fact]
    public void AnyLength_IsItsExactValueRoundedOnce() => Gen.Select(Numbers, Gen.Int[0, 3].Select(i => Units[i])).Sample((number, unit) =>
    {
        var text = number.Whole + (number.Fraction.Length > 0 ? "." : "") + number.Fraction + unit.Name;
        var exact = BigInteger.Parse(number.Whole + number.Fraction, CultureInfo.InvariantCulture) * unit.Factor;
        Assert.True(ExactRounding.IsNearest(Length(text), exact, number.Fraction.Length - unit.Exponent), text);
    });

    /// <summary>Texts as gauges print them: the decimal type is exact here, so there are two ways to the same double.</summary>
    [Fact]
    public void AGaugesText_AgreesWithTheDecimalType() =>
        Gen.Select(Gen.Int[0, 99_999_999], Gen.Int[0, 6], Gen.Int[0, 3].Select(i => Units[i])).Sample((digits, places, unit) =>
        {
            var number = new decimal(digits, 0, 0, false, (byte)places);
            var metres = number * unit.Factor * new decimal(1, 0, 0, false, (byte)-unit.Exponent);
            var expected = double.Parse(metres.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
            Assert.Equal(expected, Length(number.ToString(CultureInfo.InvariantCulture) + " " + unit.Name));
        });

    /// <summary>Whatever arrives over the wire: a fault or a number, never an exception, and never a number together with a fault.</summary>
    [Fact]
    public void AnyText_HasAFaultOrANumber() => Gen.OneOf(Gen.String, Gen.String["0123456789.-+e ,mindu"]).Sample(text =>
    {
        var fault = Quantity.TryParseLength(text, allowSign: true, out var metres);
        Assert.True(double.IsFinite(metres));
        Assert.True(fault == QuantityFault.None || metres == 0);
        Assert.Equal(text.Length == 0, fault == QuantityFault.Empty);
    });

    [Theory]
    [InlineData("de-DE")]
    [InlineData("tr-TR")]
    [InlineData("ar-SA")]
    [InlineData("fa-IR")]
    public void TheCulture_MakesNoDifference(string name)
    {
        var before = CultureInfo.CurrentCulture;
        var culture = new CultureInfo(name);
        if (name == "de-DE")
        {
            // Without culture data this machine could not show a difference.
            Assert.Equal(",", culture.NumberFormat.NumberDecimalSeparator);
        }

        try
        {
            CultureInfo.CurrentCulture = culture;
            Assert.Equal(0.0924052, Length("3.638 in"));
            Assert.Equal(1e-6, Length("1um"));
            Assert.Equal(QuantityFault.Malformed, Quantity.TryParseLength("3,638 in", allowSign: false, out _));
            Assert.Equal(QuantityFault.UnitUnknown, Quantity.TryParseLength("1 İN", allowSign: false, out _));
            Assert.Equal(QuantityFault.UnitUnknown, Quantity.TryParseLength("1 ın", allowSign: false, out _));
            Assert.Equal(QuantityFault.None, Quantity.TryParseLength("-1.5 mm", allowSign: true, out var metres));
            Assert.Equal(-0.0015, metres);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Theory]
    [InlineData("180 deg", Math.PI)]
    [InlineData("90deg", Math.PI / 2)]
    [InlineData("-135 deg", -3 * Math.PI / 4)]
    [InlineData("0.5 rad", 0.5)]
    [InlineData("0deg", 0)]
    public void AnAngle_IsReadToRadians(string text, double radians)
    {
        Assert.Equal(QuantityFault.None, Quantity.TryParseAngle(text, allowSign: true, out var actual));
        Close.To(radians, actual, 5e-16);
    }

    [Theory]
    [InlineData("", QuantityFault.Empty)]
    [InlineData("90", QuantityFault.UnitMissing)]
    [InlineData("90 mm", QuantityFault.UnitUnknown)]
    [InlineData("90°", QuantityFault.Malformed)]
    [InlineData("90,5 deg", QuantityFault.Malformed)]
    [InlineData("-90 deg", QuantityFault.Malformed)]
    [InlineData("1e2deg", QuantityFault.Malformed)]
    [InlineData("1.000000000000000000000000000000000000000000000000000000000000 rad", QuantityFault.TooLong)]
    [InlineData("1.000000000000000000000000000000000000000000000000000000000000 deg", QuantityFault.TooLong)]
    public void ABadAngle_HasItsFault(string text, QuantityFault fault)
    {
        Assert.Equal(fault, Quantity.TryParseAngle(text, allowSign: false, out var radians));
        Assert.Equal(0, radians);
    }

    [Theory]
    [InlineData("8 kg", 8)]
    [InlineData("750g", 0.75)]
    public void AMass_IsReadToKilograms(string text, double kilograms)
    {
        Assert.Equal(QuantityFault.None, Quantity.TryParseMass(text, out var actual));
        Assert.Equal(kilograms, actual);
    }

    [Theory]
    [InlineData("", QuantityFault.Empty)]
    [InlineData("8", QuantityFault.UnitMissing)]
    [InlineData("8 lb", QuantityFault.UnitUnknown)]
    [InlineData("-8 kg", QuantityFault.Malformed)]
    public void ABadMass_HasItsFault(string text, QuantityFault fault)
    {
        Assert.Equal(fault, Quantity.TryParseMass(text, out var kilograms));
        Assert.Equal(0, kilograms);
    }

    private static double Length(string text)
    {
        Assert.Equal(QuantityFault.None, Quantity.TryParseLength(text, allowSign: false, out var metres));
        return metres;
    }
}
