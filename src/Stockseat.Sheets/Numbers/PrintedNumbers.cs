using System.Globalization;
using Stockseat.Seating.Quantities;

namespace Stockseat.Sheets.Numbers;

/// <summary>Numbers as pages show them, with a real minus sign, which is not overlooked in print.</summary>
public static class PrintedNumbers
{
    /// <summary>A whole number.</summary>
    public static string Whole(long number) => number.ToString(CultureInfo.InvariantCulture).Replace('-', '\u2212');

    /// <summary>The number of a length with all its decimals.</summary>
    public static string Fixed(double metres, LengthUnit unit) => Printed(unit.Fixed(metres));

    /// <summary>The same, always with a sign, except 0.</summary>
    public static string Signed(double metres, LengthUnit unit) => Printed(unit.Signed(metres));

    /// <summary>A number with a real minus sign.</summary>
    public static string Printed(string number) => number.Replace('-', '\u2212');

    /// <summary>"1 answer", "3 answers".</summary>
    public static string Count(long count, string one, string? many = null) => $"{Whole(count)} {(count == 1 ? one : many ?? one + "s")}";

    /// <summary>The beginning of a long hexadecimal text.</summary>
    public static string Short(string hex) => hex.Length > 12 ? hex[..12] : hex;

    /// <summary>A duration in plain words: "10 min", "1 h 2 min 3 s", "0.25 s".</summary>
    public static string Duration(TimeSpan duration)
    {
        var (t, parts) = (duration.Duration(), new List<string>());
        Add((long)t.TotalHours, "h");
        Add(t.Minutes, "min");
        var seconds = t.Seconds + (t.Ticks % TimeSpan.TicksPerSecond / (double)TimeSpan.TicksPerSecond);
        if (seconds > 0 || parts.Count == 0)
        {
            parts.Add($"{Rounded.Short(seconds, 3)} s");
        }

        return string.Join(' ', parts);

        void Add(long count, string unit)
        {
            if (count > 0)
            {
                parts.Add(string.Create(CultureInfo.InvariantCulture, $"{count} {unit}"));
            }
        }
    }
}
