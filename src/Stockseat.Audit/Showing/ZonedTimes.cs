using System.Globalization;
using Stockseat.Answers.Entries;

namespace Stockseat.Audit.Showing;

/// <summary>
/// Instants as people are shown them, in one time zone. Each is shown with the offset that holds at it, so that an hour that comes twice, when the clocks
/// are set back, is told apart.
/// </summary>
/// <param name="zone">The time zone.</param>
public sealed class ZonedTimes(TimeZoneInfo zone)
{
    /// <summary>Whether the zone is UTC, whatever it is called.</summary>
    public bool IsUtc { get; } = zone.BaseUtcOffset == TimeSpan.Zero && !zone.SupportsDaylightSavingTime;

    /// <summary>The zone's name, for the head of a column: UTC, Europe/Berlin.</summary>
    public string Name => IsUtc ? "UTC" : zone.Id;

    /// <summary>The instant of an entry, as it stands there but for its zone: "2026-11-25T09:00:00.000000+01:00". What is no instant is not changed.</summary>
    public string Of(string at) => IsUtc || !EntryTime.TryParse(at, out var found) ? at
        : In(found).ToString("yyyy-MM-dd'T'HH:mm:ss.ffffffzzz", CultureInfo.InvariantCulture);

    /// <summary>The time of day of an entry, to the millisecond; with the offset where the zone is not UTC.</summary>
    public string Clock(string at) => !EntryTime.TryParse(at, out var found) ? at
        : In(found).ToString(IsUtc ? "HH:mm:ss.fff" : "HH:mm:ss.fff zzz", CultureInfo.InvariantCulture);

    /// <summary>Date and time to the second, with the offset: "2026-11-25 09:00:00 +01:00"; "2026-11-25 08:00:00 UTC".</summary>
    public string Second(DateTimeOffset at) => $"{In(at).ToString("yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture)} {Offset(at)}";

    /// <summary>Date and time to the minute, with the offset.</summary>
    public string Minute(DateTimeOffset at) => $"{In(at).ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture)} {Offset(at)}";

    /// <summary>The instant with the offset that the zone has then.</summary>
    public DateTimeOffset In(DateTimeOffset at) => TimeZoneInfo.ConvertTime(at, zone);

    /// <summary>That offset: UTC, +01:00.</summary>
    public string Offset(DateTimeOffset at) => IsUtc ? "UTC" : In(at).ToString("zzz", CultureInfo.InvariantCulture);
}
