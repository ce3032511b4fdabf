namespace Stockseat.Service.Texts;

/// <summary>Names that people and controllers give: tags, lots, gauges, clients, request ids.</summary>
public static class NameText
{
    /// <summary>The most characters.</summary>
    public const int Longest = 40;

    /// <summary>What is expected, in words.</summary>
    public const string Expected = "1 to 40 of letters, digits, point, underscore and hyphen";

    /// <summary>The most characters of a fixture's name.</summary>
    private const int LongestFixture = 63;

    /// <summary>Whether a text is such a name.</summary>
    public static bool IsName(string text) => Is(text, Longest);

    /// <summary>Whether a text can be a fixture's name; the decision says whether there is such a fixture.</summary>
    public static bool MayBeFixture(string text) => Is(text, LongestFixture);

    private static bool Is(string text, int longest)
    {
        foreach (var c in text)
        {
            if (!char.IsAsciiLetterOrDigit(c) && c is not ('.' or '_' or '-'))
            {
                return false;
            }
        }

        return text.Length > 0 && text.Length <= longest;
    }
}
