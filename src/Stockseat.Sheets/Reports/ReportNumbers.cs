using System.Globalization;

namespace Stockseat.Sheets.Reports;

/// <summary>Numbers as a report tells them; a real minus sign is not overlooked in print.</summary>
internal static class ReportNumbers
{
    /// <summary>A whole number.</summary>
    public static string Whole(long number) => number.ToString(CultureInfo.InvariantCulture).Replace('-', '\u2212');

    /// <summary>A length in millimetres, three decimals.</summary>
    public static string Mm(double metres) => (Math.Round(1000 * metres, 3) + 0.0).ToString("0.000", CultureInfo.InvariantCulture).Replace('-', '\u2212');

    /// <summary>The same with its sign either way; 0 has none.</summary>
    public static string Signed(double metres) => Mm(metres) is var text && text[0] != '\u2212' && text.AsSpan().ContainsAnyInRange('1', '9') ? $"+{text}" : text;

    /// <summary>"1 answer", "3 answers".</summary>
    public static string Count(long count, string one, string? many = null) => $"{Whole(count)} {(count == 1 ? one : many ?? one + "s")}";

    /// <summary>The first of a long hexadecimal text.</summary>
    public static string Short(string hex) => hex.Length > 12 ? hex[..12] : hex;
}
