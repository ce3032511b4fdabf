using System.Globalization;
using Stockseat.Answers.Entries;

namespace Stockseat.Sheets.Reports;

/// <summary>
/// Times as a report shows them: all with the offset that the zone had at the instant, so that they stay in order where the zone's clocks are changed.
/// </summary>
internal sealed class ReportClock(DateTimeOffset instant, TimeZoneInfo zone)
{
    private readonly TimeSpan _offset = zone.GetUtcOffset(instant);

    /// <summary>The instant, with that offset.</summary>
    public DateTimeOffset Instant => instant.ToOffset(_offset);

    /// <summary>Such as UTC+01:00.</summary>
    public string Offset => OffsetText(_offset);

    /// <summary>The zone's name and offset.</summary>
    public string Zone => zone.BaseUtcOffset == TimeSpan.Zero && !zone.SupportsDaylightSavingTime ? "UTC" : $"{Offset}, {zone.Id}";

    /// <summary>A time of day; with its date where it is another day.</summary>
    public string Time(DateTimeOffset at) => Text(at.ToOffset(_offset), at.ToOffset(_offset).Date == Instant.Date ? "HH:mm:ss.fff" : "MM-dd HH:mm:ss.fff");

    /// <summary>The time of an entry; its text as it is when it is not a time.</summary>
    public string Time(string at) => Find(at) is { } found ? Time(found) : at;

    /// <summary>Date and time, to the second.</summary>
    public string Full(DateTimeOffset at) => Text(at.ToOffset(_offset), "yyyy-MM-dd HH:mm:ss");

    /// <summary>The same for an entry.</summary>
    public string Full(string at) => Find(at) is { } found ? Full(found) : at;

    /// <summary>Date and time with another offset than the report's.</summary>
    public static string Own(DateTimeOffset at) => $"{Text(at, "yyyy-MM-dd HH:mm:ss")} {OffsetText(at.Offset)}";

    /// <summary>A sentence with a real minus sign in its offsets; no line breaks there.</summary>
    public static string Printed(string sentence) => sentence.Replace("UTC-", "UTC\u2212", StringComparison.Ordinal);

    /// <summary>An entry's instant; null when its text is not one, as in a forged entry.</summary>
    public static DateTimeOffset? Find(string at) => EntryTime.TryParse(at, out var found) ? found : null;

    private static string Text(DateTimeOffset at, string pattern) => at.ToString(pattern, CultureInfo.InvariantCulture);

    private static string OffsetText(TimeSpan offset) =>
        string.Create(CultureInfo.InvariantCulture, $"UTC{(offset < TimeSpan.Zero ? "\u2212" : "+")}{offset:hh\\:mm}");
}
