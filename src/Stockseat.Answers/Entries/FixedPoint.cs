using System.Globalization;

namespace Stockseat.Answers.Entries;

/// <summary>Numbers with fixed decimals, as they are served and read back: never an exponent, NaN or a negative zero.</summary>
public static class FixedPoint
{
    /// <summary>The decimals of the built-in form, which make micrometres.</summary>
    public const int UsualDecimals = 6;

    /// <summary>The form that a number read back may have, in words.</summary>
    public const string Expected = "with up to 12 digits before the point and 15 after it";

    private const int MostWhole = 12;
    private const int MostFraction = 15;

    private static readonly double[] Powers = [1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15];

    private static readonly ulong[] WholePowers = [.. Enumerable.Range(0, 20).Select(n => Enumerable.Repeat(10UL, n).Aggregate(1UL, (all, ten) => all * ten))];

    /// <summary>The value as a whole number of units of its last decimal, rounded half to even.</summary>
    /// <param name="value">The value; finite, and below 9·10¹⁸ when scaled.</param>
    /// <param name="decimals">0 to 15: the decimals plus the power of ten of the unit.</param>
    public static long Scale(double value, int decimals) => checked((long)Math.Round(value * Powers[decimals], MidpointRounding.ToEven));

    /// <summary>Writes a value with fixed decimals in ASCII.</summary>
    /// <param name="target">The bytes are written here.</param>
    /// <param name="value">The value; finite, and below 9·10¹⁸ when scaled.</param>
    /// <param name="decimals">0 to 12.</param>
    /// <param name="exponent">The power of ten by which the value is multiplied first, 0 to 3, or 6 without decimals; both steps are rounded once.</param>
    /// <returns>How many bytes were written; the target must have room for 22.</returns>
    public static int Format(Span<byte> target, double value, int decimals, int exponent = 0)
    {
        var scaled = Scale(value, decimals + exponent);
        var rest = (ulong)Math.Abs(scaled);
        var digits = decimals + 1;
        while (digits < WholePowers.Length && rest >= WholePowers[digits])
        {
            digits++;
        }

        var length = digits + (decimals > 0 ? 1 : 0) + (scaled < 0 ? 1 : 0);
        var at = length;
        for (var i = 0; i < digits; i++)
        {
            if (i == decimals && i > 0)
            {
                target[--at] = (byte)'.';
            }

            (rest, var digit) = Math.DivRem(rest, 10);
            target[--at] = (byte)('0' + digit);
        }

        if (scaled < 0)
        {
            target[0] = (byte)'-';
        }

        return length;
    }

    /// <summary>The value, or the next one above it that the decimals can show: an uncertainty is never shown too small, and never as 0.</summary>
    /// <param name="value">The value; finite, 0 or more.</param>
    /// <param name="decimals">0 to 15: the decimals plus the power of ten of the unit.</param>
    public static double Above(double value, int decimals) => Math.Ceiling(value * Powers[decimals]) / Powers[decimals];

    /// <summary>A value with fixed decimals as text.</summary>
    public static string Text(double value, int decimals = UsualDecimals, int exponent = 0)
    {
        Span<byte> bytes = stackalloc byte[24];
        return System.Text.Encoding.ASCII.GetString(bytes[..Format(bytes, value, decimals, exponent)]);
    }

    /// <summary>Whether a text is a plain number: an optional minus, digits, at most one point with digits on both sides.</summary>
    public static bool IsPlain(string text)
    {
        var rest = text.AsSpan(text.StartsWith('-') ? 1 : 0);
        var point = rest.IndexOf('.');
        var whole = point >= 0 ? rest[..point] : rest;
        var fraction = point >= 0 ? rest[(point + 1)..] : "0";
        return whole.Length is > 0 and <= MostWhole && fraction.Length is > 0 and <= MostFraction
            && !whole.ContainsAnyExceptInRange('0', '9') && !fraction.ContainsAnyExceptInRange('0', '9');
    }

    /// <summary>Whether a number that was read back is the one that was served, compared as numbers, at the decimals of the one served.</summary>
    /// <param name="text">The number read back: an optional minus, digits, at most one point.</param>
    /// <param name="served">The number served.</param>
    /// <param name="decimals">The decimals with which it was served.</param>
    /// <param name="same">Whether they are the same.</param>
    /// <param name="exponent">The power of ten of the unit in which it was served.</param>
    /// <returns>False when the text is not a plain number.</returns>
    public static bool TryCompare(string text, double served, int decimals, out bool same, int exponent = 0)
    {
        same = false;
        if (!IsPlain(text))
        {
            return false;
        }

        var number = decimal.Parse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture);
        same = decimal.Round(number * (decimal)Powers[decimals], MidpointRounding.ToEven) == Scale(served, decimals + exponent);
        return true;
    }
}
