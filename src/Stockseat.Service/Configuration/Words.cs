namespace Stockseat.Service.Configuration;

/// <summary>Names that people and controllers give: tags, lots, gauges, clients, request ids.</summary>
public static class Words
{
    /// <summary>The most characters.</summary>
    public const int Longest = 40;

    /// <summary>What is expected, in words.</summary>
    public const string Expected = "1 to 40 of letters, digits, point, underscore and hyphen";

    /// <summary>Whether a text is such a name.</summary>
    public static bool IsWord(string text)
    {
        foreach (var c in text)
        {
            if (!char.IsAsciiLetterOrDigit(c) && c is not ('.' or '_' or '-'))
            {
                return false;
            }
        }

        return text.Length is > 0 and <= Longest;
    }
}
