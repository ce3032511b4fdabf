using System.Globalization;

namespace Stockseat.Seating.Quantities;

/// <summary>Numbers for people: rounded first and written then, so that a value that rounds to zero never keeps a minus. No culture is asked.</summary>
public static class Rounded
{
    /// <summary>The most decimals that are written.</summary>
    private const int MostDecimals = 15;

    /// <summary>A larger number is written in another form: only whoever forged a ledger makes one.</summary>
    private const double Largest = 9e18;

    private static readonly double[] Powers = [.. Enumerable.Range(0, MostDecimals + 4).Select(n => double.Parse($"1e{n}", CultureInfo.InvariantCulture))];

    /// <summary>All decimals: "0.400"; "0.000" for a value just below zero.</summary>
    /// <param name="value">The number.</param>
    /// <param name="decimals">How many decimals, 0 to 15.</param>
    public static string Fixed(double value, int decimals) => Text(value * Powers[decimals], value, decimals);

    /// <summary>No more decimals than it needs: "0.4"; "0" for a value just below zero.</summary>
    /// <param name="value">The number.</param>
    /// <param name="most">How many decimals at most, 0 to 15.</param>
    public static string Short(double value, int most) => Trimmed(Fixed(value, most));

    /// <summary>With a plus above zero: "+0.4"; zero has no sign.</summary>
    /// <param name="text">The number as the others here write it.</param>
    public static string Signed(string text) => text[0] != '-' && text.AsSpan().ContainsAnyInRange('1', '9') ? $"+{text}" : text;

    /// <summary>Without the zeros at the end of its decimals.</summary>
    internal static string Trimmed(string text, int keep = 0)
    {
        var point = text.IndexOf('.', StringComparison.Ordinal);
        if (point < 0)
        {
            return text;
        }

        var least = keep == 0 ? point : point + 1 + keep;
        var end = text.Length;
        while (end > least && text[end - 1] == '0')
        {
            end--;
        }

        return text[..end].TrimEnd('.');
    }

    /// <summary>Ten to a power.</summary>
    internal static double Power(int exponent) => Powers[exponent];

    /// <summary>A number that was scaled to its last decimal, rounded half to even.</summary>
    /// <param name="scaled">The number times ten to the power of its decimals.</param>
    /// <param name="value">The number itself, for one that is too large to be scaled.</param>
    /// <param name="decimals">How many decimals.</param>
    internal static string Text(double scaled, double value, int decimals)
    {
        if (!(Math.Abs(scaled) < Largest))
        {
            return value.ToString("R", CultureInfo.InvariantCulture);
        }

        var whole = (long)Math.Round(scaled, MidpointRounding.ToEven);
        var digits = Math.Abs(whole).ToString(CultureInfo.InvariantCulture).PadLeft(decimals + 1, '0');
        var point = digits.Length - decimals;
        return $"{(whole < 0 ? "-" : "")}{digits[..point]}{(decimals > 0 ? "." : "")}{digits[point..]}";
    }
}
