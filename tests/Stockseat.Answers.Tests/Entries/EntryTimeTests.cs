using System.Globalization;
using CsCheck;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Tests.Entries;

public sealed class EntryTimeTests
{
    [Fact]
    public void The_text_is_the_one_that_the_framework_s_pattern_writes()
    {
        Gen.Long[DateTime.MinValue.Ticks, DateTime.MaxValue.Ticks].Sample(ticks =>
        {
            var at = new DateTimeOffset(ticks, TimeSpan.Zero);
            Assert.Equal(at.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.ffffff'Z'", CultureInfo.InvariantCulture), EntryTime.Text(at));
        });
    }

    [Fact]
    public void An_instant_with_another_offset_is_written_in_UTC() =>
        Assert.Equal("2026-11-25T06:05:04.000123Z", EntryTime.Text(new DateTimeOffset(2026, 11, 25, 8, 5, 4, TimeSpan.FromHours(2)).AddMicroseconds(123)));

    [Fact]
    public void A_text_is_read_as_the_framework_s_pattern_reads_it()
    {
        static DateTimeOffset? Try(Func<string, DateTimeOffset> read, string text)
        {
            try
            {
                return read(text);
            }
            catch (FormatException)
            {
                return null;
            }
        }

        Gen.Select(Gen.Long[DateTime.MinValue.Ticks, DateTime.MaxValue.Ticks], Gen.Int[0, 86_399], Gen.Int[0, 60], Gen.Char["0:9.TZ -+9"])
            .Sample((ticks, second, place, other) =>
        {
            var day = new DateTimeOffset(ticks, TimeSpan.Zero);
            var text = EntryTime.Text(day.Date.AddSeconds(second).AddTicks(ticks % TimeSpan.TicksPerSecond));
            var broken = place < text.Length ? $"{text[..place]}{other}{text[(place + 1)..]}" : text + other;
            foreach (var said in new[] { text, text, broken })
            {
                Assert.Equal(
                    Try(t => DateTimeOffset.ParseExact(t, "yyyy-MM-dd'T'HH:mm:ss.ffffff'Z'", CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal),
                        said),
                    Try(EntryTime.Parse, said));
            }
        });
    }

    [Fact]
    public void An_instant_reads_back_to_the_microsecond()
    {
        var at = new DateTimeOffset(2026, 11, 25, 8, 5, 4, TimeSpan.Zero).AddMicroseconds(999_999);

        Assert.Equal(at, EntryTime.Parse(EntryTime.Text(at)));
    }

    [Theory]
    [InlineData("2026-11-25T08:05:04.000123Z", true)]
    [InlineData("2026-11-25T08:05:04Z", false)]
    [InlineData("", false)]
    [InlineData(null, false)]
    public void A_text_that_is_not_an_instant_is_recognised(string? text, bool isOne) => Assert.Equal(isOne, EntryTime.TryParse(text, out _));
}
