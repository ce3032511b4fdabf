using Stockseat.Ledger.Reading;

namespace Stockseat.Ledger.Tests.Reading;

public sealed class InstantTextTests
{
    /// <summary>
    /// One hour ahead of UTC, two in summer: from 29 March 2026 2:00 to 25 October 2026 3:00, according to Directive 2000/84/EC (from memory).
    /// </summary>
    private static readonly TimeZoneInfo Zone = TimeZoneInfo.FindSystemTimeZoneById("Europe/Berlin");

    [Theory]
    [InlineData("2026-11-25T08:00:00Z", "2026-11-25T08:00:00Z")]
    [InlineData("2026-11-25 08:00:00.25Z", "2026-11-25T08:00:00.25Z")]
    [InlineData("2026-11-25T08:00:00.123456Z", "2026-11-25T08:00:00.123456Z")]
    [InlineData("2026-11-25T09:00+01:00", "2026-11-25T08:00:00Z")]
    [InlineData("2026-11-25T09:00", "2026-11-25T08:00:00Z")]
    [InlineData("2026-07-25T10:00", "2026-07-25T08:00:00Z")]
    [InlineData("2026-11-25", "2026-11-24T23:00:00Z")]
    public void An_instant_is_read(string text, string expected)
    {
        Assert.Null(InstantText.Read(text, Zone, out var at));
        Assert.Equal(DateTimeOffset.Parse(expected, System.Globalization.CultureInfo.InvariantCulture), at);
    }

    [Theory]
    [InlineData("2026-10-25T02:30", "occurs twice in Europe/Berlin")]
    [InlineData("2026-03-29T02:30", "does not occur in Europe/Berlin")]
    [InlineData("25.11.2026", "is not an instant")]
    [InlineData("2026-11-25T08:00:00.1234567Z", "is not an instant")]
    [InlineData("", "is not an instant")]
    public void A_text_that_is_not_an_instant_is_refused(string text, string said) =>
        Assert.StartsWith(said, InstantText.Read(text, Zone, out _), StringComparison.Ordinal);

    [Fact]
    public void Without_a_time_zone_an_offset_is_needed() =>
        Assert.StartsWith("has no offset", InstantText.Read("2026-11-25T08:00", null, out _), StringComparison.Ordinal);
}
