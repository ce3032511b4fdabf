using System.Globalization;

namespace Stockseat.Ledger.Reading;

/// <summary>An instant as people write it: a date, or a date and a time, with an offset or in a time zone.</summary>
public static class InstantText
{
    private static readonly string[] Dates = ["yyyy-MM-dd", "yyyy-MM-dd'T'HH:mm", "yyyy-MM-dd'T'HH:mm:ss", "yyyy-MM-dd'T'HH:mm:ss.FFFFFF"];
    private static readonly string[] Patterns = [.. Dates, .. Dates.Select(d => d.Replace("'T'", "' '", StringComparison.Ordinal))];
    private static readonly string[] WithOffset = [.. Patterns.Skip(1).SelectMany(p => new[] { p + "'Z'", p + "zzz" })];

    /// <summary>Reads an instant.</summary>
    /// <param name="text">For example 2026-11-25T08:00:00Z, 2026-11-25T09:00+01:00, or without an offset 2026-11-25 or 2026-11-25T09:00.</param>
    /// <param name="zone">The zone of a text without offset; null: the text needs an offset.</param>
    /// <param name="at">The instant.</param>
    /// <returns>What is wrong with the text; null when it was read.</returns>
    public static string? Read(string text, TimeZoneInfo? zone, out DateTimeOffset at)
    {
        if (DateTimeOffset.TryParseExact(text, WithOffset, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out at))
        {
            return null;
        }

        at = default;
        if (!DateTime.TryParseExact(text, Patterns, CultureInfo.InvariantCulture, DateTimeStyles.None, out var local))
        {
            return "is not an instant; a date and a time such as 2026-11-25T08:00:00Z or 2026-11-25T09:00+01:00 was expected";
        }

        if (zone is null)
        {
            return "has no offset; add Z for UTC, or one such as +01:00";
        }

        if (zone.IsInvalidTime(local) || zone.IsAmbiguousTime(local))
        {
            var how = zone.IsInvalidTime(local) ? "does not occur" : "occurs twice";
            return $"{how} in {zone.Id}, where the clocks are changed then; add the offset, such as +01:00";
        }

        at = new(local, zone.GetUtcOffset(local));
        return null;
    }
}
