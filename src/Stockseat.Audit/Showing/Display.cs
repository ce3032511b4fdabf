using Stockseat.Seating.Quantities;

namespace Stockseat.Audit.Showing;

/// <summary>How people are shown lengths, times and pages. Machines always get metres and UTC.</summary>
/// <param name="Length">The unit of lengths.</param>
/// <param name="Zone">The time zone of instants.</param>
/// <param name="Paper">The paper of pages.</param>
public sealed record Display(LengthUnit Length, TimeZoneInfo Zone, PaperSize Paper)
{
    /// <summary>Millimetres, UTC and A4.</summary>
    public static Display Plain { get; } = new(LengthUnit.Millimetre, TimeZoneInfo.Utc, PaperSize.A4);

    /// <summary>How instants are shown.</summary>
    public ZonedTimes Times => new(Zone);
}
