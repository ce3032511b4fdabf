namespace Stockseat.Fixtures.Revisions;

/// <summary>The first digits of a revision's digest, by which somebody says which file is meant.</summary>
public static class DigestPrefix
{
    /// <summary>Fewer digits would not tell a file from one that was made to look like it: 12 are 48 bits.</summary>
    public const int Least = 12;

    /// <summary>A whole digest: SHA-256.</summary>
    public const int Most = 64;

    /// <summary>How many digits are printed to copy.</summary>
    public const int Shown = 16;

    /// <summary>What was expected, for a message.</summary>
    public static string Expected { get; } = $"{Least} to {Most} hexadecimal digits, as stockseat fixture check prints them";

    /// <summary>Reads one, in upper or lower case.</summary>
    /// <param name="text">What was sent.</param>
    /// <param name="prefix">The digits in lower case, as digests are written; empty when it is none.</param>
    public static bool TryRead(string text, out string prefix)
    {
        var read = text.Length is >= Least and <= Most && text.All(char.IsAsciiHexDigit);
        prefix = read ? text.ToLowerInvariant() : "";
        return read;
    }
}
