using System.Globalization;

namespace Stockseat.Sheets.Html;

/// <summary>Makes text from others harmless, for a terminal and for a page.</summary>
public static class PlainText
{
    /// <summary>Without control characters, without marks that change the direction of writing, and without what XML can't carry.</summary>
    public static string Clean(string text) => string.Create(text.Length, text, (span, source) =>
    {
        for (var i = 0; i < span.Length; i++)
        {
            // Both halves of a surrogate pair have the pair's category; a half alone keeps its own.
            var start = i > 0 && char.IsSurrogatePair(source[i - 1], source[i]) ? i - 1 : i;
            span[i] = CharUnicodeInfo.GetUnicodeCategory(source, start) is UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.Surrogate
                or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator || source[i] >= '\uFFFE'
                ? '?'
                : source[i];
        }
    });
}
