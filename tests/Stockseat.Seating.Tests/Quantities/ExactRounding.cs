using System.Numerics;

namespace Stockseat.Seating.Tests.Quantities;

/// <summary>
/// The oracle for "exact, then rounded once", with integers only: a double is right when no other double is nearer; of two equally near doubles it is the even
/// one. The oracle has nothing in common with the framework's parser.
/// </summary>
public static class ExactRounding
{
    /// <summary>Whether a value is numerator / 10^scale, rounded to nearest, ties to even. Both positive.</summary>
    public static bool IsNearest(double value, BigInteger numerator, int scale)
    {
        var denominator = BigInteger.Pow(10, scale);
        if (numerator.IsZero)
        {
            return value == 0 && !double.IsNegative(value);
        }

        if (!(value > 0) || !double.IsFinite(value))
        {
            return false;
        }

        var bits = BitConverter.DoubleToInt64Bits(value);
        var even = (bits & 1) == 0;
        var above = Compare(Midpoint(value, Math.BitIncrement(value)), numerator, denominator);
        var below = Compare(Midpoint(Math.BitDecrement(value), value), numerator, denominator);
        return (above > 0 || (above == 0 && even)) && (below < 0 || (below == 0 && even));
    }

    /// <summary>The midpoint of two doubles as mantissa · 2^exponent, exact.</summary>
    private static (BigInteger Mantissa, int Exponent) Midpoint(double a, double b)
    {
        var (ma, ea) = Parts(a);
        var (mb, eb) = Parts(b);
        var e = Math.Min(ea, eb);
        return ((ma << (ea - e)) + (mb << (eb - e)), e - 1);
    }

    private static (BigInteger Mantissa, int Exponent) Parts(double value)
    {
        var bits = BitConverter.DoubleToInt64Bits(value);
        var exponent = (int)((bits >> 52) & 0x7FF);
        var fraction = bits & 0xFFFFFFFFFFFFF;
        return exponent == 0 ? (fraction, -1074) : (fraction | 1L << 52, exponent - 1075);
    }

    private static int Compare((BigInteger Mantissa, int Exponent) middle, BigInteger numerator, BigInteger denominator) =>
        middle.Exponent >= 0
            ? ((middle.Mantissa << middle.Exponent) * denominator).CompareTo(numerator)
            : (middle.Mantissa * denominator).CompareTo(numerator << -middle.Exponent);
}
