using System.Globalization;

namespace Stockseat.Answers.Records;

/// <summary>The instant of an entry as text: UTC, microseconds.</summary>
public static class EntryTime
{
    private const string Pattern = "yyyy-MM-dd'T'HH:mm:ss.ffffff'Z'";

    /// <summary>The instant as an entry has it.</summary>
    public static string Text(DateTimeOffset at) => at.UtcDateTime.ToString(Pattern, CultureInfo.InvariantCulture);

    /// <summary>The instant that a text of an entry says.</summary>
    public static DateTimeOffset Parse(string text) => DateTimeOffset.ParseExact(
        text, Pattern, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal);
}
