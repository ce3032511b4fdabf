using System.Globalization;
using CsCheck;
using Stockseat.Answers.Records;

namespace Stockseat.Answers.Tests.Records;

public sealed class EntryTimeTests
{
    [Fact]
    public void It_is_what_the_framework_s_pattern_writes()
    {
        Gen.Long[DateTime.MinValue.Ticks, DateTime.MaxValue.Ticks].Sample(ticks =>
        {
            var at = new DateTimeOffset(ticks, TimeSpan.Zero);
            Assert.Equal(at.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.ffffff'Z'", CultureInfo.InvariantCulture), EntryTime.Text(at));
        });
    }

    [Fact]
    public void Another_offset_is_told_in_UTC() =>
        Assert.Equal("2026-11-25T06:05:04.000123Z", EntryTime.Text(new DateTimeOffset(2026, 11, 25, 8, 5, 4, TimeSpan.FromHours(2)).AddMicroseconds(123)));

    [Fact]
    public void It_reads_back_to_the_microsecond()
    {
        var at = new DateTimeOffset(2026, 11, 25, 8, 5, 4, TimeSpan.Zero).AddMicroseconds(999_999);

        Assert.Equal(at, EntryTime.Parse(EntryTime.Text(at)));
    }

    [Theory]
    [InlineData("2026-11-25T08:05:04.000123Z", true)]
    [InlineData("2026-11-25T08:05:04Z", false)]
    [InlineData("", false)]
    [InlineData(null, false)]
    public void A_text_that_is_none_is_told(string? text, bool isOne) => Assert.Equal(isOne, EntryTime.TryParse(text, out _));
}
