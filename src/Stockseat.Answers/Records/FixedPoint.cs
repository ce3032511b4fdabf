using System.Globalization;

namespace Stockseat.Answers.Records;

/// <summary>Numbers with fixed decimals, as they are served and read back: never an exponent, a NaN, or a negative zero.</summary>
public static class FixedPoint
{
    /// <summary>The decimals of the built-in form: micrometres.</summary>
    public const int UsualDecimals = 6;

    private static readonly double[] Powers = [1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15];

    /// <summary>The value as a whole number of its last decimal, rounded half to even.</summary>
    /// <param name="value">The value; finite, and below 9·10¹⁸ when scaled.</param>
    /// <param name="decimals">0 to 15: the decimals and the power of ten of the unit together.</param>
    public static long Scale(double value, int decimals) => checked((long)Math.Round(value * Powers[decimals], MidpointRounding.ToEven));

    /// <summary>Writes a value with fixed decimals in ASCII.</summary>
    /// <param name="target">Where to.</param>
    /// <param name="value">The value; finite, and below 9·10¹⁸ when scaled.</param>
    /// <param name="decimals">0 to 12.</param>
    /// <param name="exponent">The power of ten that the value is multiplied by first, 0 to 3, or 6 without decimals; both steps are rounded once.</param>
    /// <returns>How many bytes were written; the target needs 22.</returns>
    public static int Format(Span<byte> target, double value, int decimals, int exponent = 0)
    {
        var scaled = Scale(value, decimals + exponent);
        Span<byte> digits = stackalloc byte[24];
        var at = digits.Length;
        var rest = (ulong)Math.Abs(scaled);
        for (var i = 0; i <= decimals || rest > 0; i++)
        {
            if (i == decimals && decimals > 0)
            {
                digits[--at] = (byte)'.';
            }

            digits[--at] = (byte)('0' + rest % 10);
            rest /= 10;
        }

        if (scaled < 0)
        {
            digits[--at] = (byte)'-';
        }

        digits[at..].CopyTo(target);
        return digits.Length - at;
    }

    /// <summary>A value with fixed decimals as text.</summary>
    public static string Text(double value, int decimals = UsualDecimals, int exponent = 0)
    {
        Span<byte> bytes = stackalloc byte[24];
        return System.Text.Encoding.ASCII.GetString(bytes[..Format(bytes, value, decimals, exponent)]);
    }

    /// <summary>Whether a number read back is the one served, compared as numbers at the decimals served.</summary>
    /// <param name="text">An optional minus, digits, at most one point.</param>
    /// <param name="served">The number served.</param>
    /// <param name="decimals">The decimals that it was served with.</param>
    /// <param name="same">Whether they are the same.</param>
    /// <param name="exponent">The power of ten of the unit that it was served in.</param>
    /// <returns>False when the text is no plain number.</returns>
    public static bool TryCompare(string text, double served, int decimals, out bool same, int exponent = 0)
    {
        same = false;
        if (text.Length is 0 or > 40 || !char.IsAsciiDigit(text[^1]) || !char.IsAsciiDigit(text[text[0] == '-' && text.Length > 1 ? 1 : 0])
            || !decimal.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number))
        {
            return false;
        }

        same = Math.Abs(number) < 1_000_000 * (decimal)Powers[exponent]
            && decimal.Round(number * (decimal)Powers[decimals], MidpointRounding.ToEven) == Scale(served, decimals + exponent);
        return true;
    }
}
