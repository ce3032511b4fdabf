using Stockseat.Audit.Showing;

namespace Stockseat.Audit.Tests.Showing;

public sealed class ZonedTimesTests
{
    private static readonly ZonedTimes Utc = new(TimeZoneInfo.Utc);
    private static readonly ZonedTimes Works = new(TimeZoneInfo.FindSystemTimeZoneById("Europe/Paris"));

    [Fact]
    public void In_UTC_an_entry_s_instant_stays_as_it_stands()
    {
        const string At = "2026-11-25T08:00:00.123456Z";

        Assert.Equal((At, "08:00:00.123", "UTC"), (Utc.Of(At), Utc.Clock(At), Utc.Name));
        Assert.Equal("2026-11-25 08:00:00 UTC", Utc.Second(DateTimeOffset.Parse(At, System.Globalization.CultureInfo.InvariantCulture)));
    }

    [Fact]
    public void In_another_zone_it_has_its_offset()
    {
        const string At = "2026-11-25T08:00:00.123456Z";

        Assert.Equal(("2026-11-25T09:00:00.123456+01:00", "09:00:00.123 +01:00", "Europe/Paris"), (Works.Of(At), Works.Clock(At), Works.Name));
        Assert.Equal("2026-11-25 09:00 +01:00", Works.Minute(new(2026, 11, 25, 8, 0, 0, TimeSpan.Zero)));
    }

    [Fact]
    public void The_hour_that_comes_twice_is_told_apart()
    {
        Assert.Equal("2026-10-25T02:30:00.000000+02:00", Works.Of("2026-10-25T00:30:00.000000Z"));
        Assert.Equal("2026-10-25T02:30:00.000000+01:00", Works.Of("2026-10-25T01:30:00.000000Z"));
    }

    [Theory]
    [InlineData("yesterday")]
    [InlineData("")]
    public void What_is_no_instant_is_not_changed(string at) => Assert.Equal((at, at), (Works.Of(at), Works.Clock(at)));
}
