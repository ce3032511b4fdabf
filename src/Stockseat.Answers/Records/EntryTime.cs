using System.Globalization;

namespace Stockseat.Answers.Records;

/// <summary>The instant of an entry as text: UTC, microseconds.</summary>
public static class EntryTime
{
    private const string Pattern = "yyyy-MM-dd'T'HH:mm:ss.ffffff'Z'";

    /// <summary>The instant as an entry has it.</summary>
    public static string Text(DateTimeOffset at) => string.Create("yyyy-MM-ddTHH:mm:ss.ffffffZ".Length, at.UtcDateTime, static (text, t) =>
    {
        // Every entry has one: written by hand it costs a tenth of the pattern.
        "0000-00-00T00:00:00.000000Z".CopyTo(text);
        Put(text[..4], t.Year);
        Put(text[5..7], t.Month);
        Put(text[8..10], t.Day);
        Put(text[11..13], t.Hour);
        Put(text[14..16], t.Minute);
        Put(text[17..19], t.Second);
        Put(text[20..26], (int)(t.Ticks % TimeSpan.TicksPerSecond / TimeSpan.TicksPerMicrosecond));
    });

    /// <summary>The instant that a text of an entry says.</summary>
    public static DateTimeOffset Parse(string text) => DateTimeOffset.ParseExact(
        text, Pattern, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal);

    /// <summary>The same, of a text that may be none.</summary>
    public static bool TryParse(string? text, out DateTimeOffset at) => DateTimeOffset.TryParseExact(
        text, Pattern, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out at);

    private static void Put(Span<char> digits, int value)
    {
        for (var i = digits.Length - 1; i >= 0; i--)
        {
            digits[i] = (char)('0' + value % 10);
            value /= 10;
        }
    }
}
