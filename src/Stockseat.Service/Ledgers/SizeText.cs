using System.Globalization;

namespace Stockseat.Service.Ledgers;

/// <summary>Sizes as text: the one at which the ledger rolls over, and others.</summary>
internal static class SizeText
{
    public const string Never = "never";

    public const string Expected = "a size such as \"4 GB\" or \"500 MB\", from 1 MB to 1000 GB, or \"never\"";

    private const long Megabyte = 1_000_000;

    private const long Most = 1_000_000 * Megabyte;

    /// <summary>A size for people: "412 MB", "37.5 GB".</summary>
    public static string Of(long bytes) => bytes < 1000 * Megabyte
        ? string.Create(CultureInfo.InvariantCulture, $"{bytes / Megabyte} MB")
        : string.Create(CultureInfo.InvariantCulture, $"{Math.Floor(bytes / (100.0 * Megabyte)) / 10:0.0} GB");

    /// <summary>Reads a size; null bytes mean never.</summary>
    public static bool TryRead(string text, out long? bytes)
    {
        bytes = null;
        if (text == Never)
        {
            return true;
        }

        var unit = text.EndsWith("GB", StringComparison.Ordinal) ? 1000 * Megabyte : text.EndsWith("MB", StringComparison.Ordinal) ? Megabyte : 0;
        if (unit == 0
            || !long.TryParse(text.AsSpan()[..^2].TrimEnd(' '), NumberStyles.None, CultureInfo.InvariantCulture, out var count)
            || count < 1 || count > Most / unit)
        {
            return false;
        }

        bytes = count * unit;
        return true;
    }
}
