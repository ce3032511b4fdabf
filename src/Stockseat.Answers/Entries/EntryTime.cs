using System.Globalization;

namespace Stockseat.Answers.Entries;

/// <summary>The instant of an entry as text: UTC, microseconds.</summary>
public static class EntryTime
{
    /// <summary>The clock of no machine is set to a year before this one,</summary>
    internal const int FirstYear = 1970;

    /// <summary>nor to one after this: there must be room for whatever is added to an instant.</summary>
    internal const int LastYear = 2999;

    private static readonly DateTimeOffset Latest = new(LastYear, 12, 31, 23, 59, 59, TimeSpan.Zero);

    private const int Length = 27;

    /// <summary>The day that was parsed last, up to the T.</summary>
    private static volatile Day? _day;

    private const string Pattern = "yyyy-MM-dd'T'HH:mm:ss.ffffff'Z'";

    /// <summary>The first instant that an entry can have.</summary>
    public static DateTimeOffset Earliest { get; } = new(FirstYear, 1, 1, 0, 0, 0, TimeSpan.Zero);

    /// <summary>The instant itself, or the nearest one that an entry can have.</summary>
    public static DateTimeOffset Nearest(DateTimeOffset at) => at < Earliest ? Earliest : at > Latest ? Latest : at;

    /// <summary>The text of an instant, as entries have it.</summary>
    public static string Text(DateTimeOffset at) => string.Create("yyyy-MM-ddTHH:mm:ss.ffffffZ".Length, at.UtcDateTime, static (text, t) =>
    {
        // Every entry has one: writing it by hand takes a tenth of the time of a format pattern.
        "0000-00-00T00:00:00.000000Z".CopyTo(text);
        Put(text[..4], t.Year);
        Put(text[5..7], t.Month);
        Put(text[8..10], t.Day);
        Put(text[11..13], t.Hour);
        Put(text[14..16], t.Minute);
        Put(text[17..19], t.Second);
        Put(text[20..26], (int)(t.Ticks % TimeSpan.TicksPerSecond / TimeSpan.TicksPerMicrosecond));
    });

    /// <summary>The instant of a text from an entry.</summary>
    public static DateTimeOffset Parse(string text)
    {
        // A replay reads the instant of every entry, which is usually of the same day as the one before: only a new day is parsed by the pattern.
        var day = _day;
        if (text.Length != Length || day is null || !text.AsSpan(0, 11).SequenceEqual(day.Text)
            || text[13] != ':' || text[16] != ':' || text[19] != '.' || text[26] != 'Z'
            || !Whole(text, 11, 2, 24, out var hour) || !Whole(text, 14, 2, 60, out var minute)
            || !Whole(text, 17, 2, 60, out var second) || !Whole(text, 20, 6, 1_000_000, out var micro))
        {
            var at = DateTimeOffset.ParseExact(text, Pattern, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal);
            _day = new(text[..11], new(at.UtcDateTime.Date, TimeSpan.Zero));
            return at;
        }

        return day.Begins.AddTicks((((((hour * 60L) + minute) * 60) + second) * TimeSpan.TicksPerSecond) + (micro * TimeSpan.TicksPerMicrosecond));
    }

    private static bool Whole(string text, int from, int digits, int below, out int value)
    {
        value = 0;
        foreach (var c in text.AsSpan(from, digits))
        {
            if (!char.IsAsciiDigit(c))
            {
                return false;
            }

            value = (value * 10) + c - '0';
        }

        return value < below;
    }

    /// <summary>The same for a text that may not be an instant, or not one that a clock can show.</summary>
    public static bool TryParse(string? text, out DateTimeOffset at) =>
        DateTimeOffset.TryParseExact(text, Pattern, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out at)
            && at.Year is >= FirstYear and <= LastYear;

    private static void Put(Span<char> digits, int value)
    {
        for (var i = digits.Length - 1; i >= 0; i--)
        {
            digits[i] = (char)('0' + value % 10);
            value /= 10;
        }
    }

    private sealed record Day(string Text, DateTimeOffset Begins);
}
