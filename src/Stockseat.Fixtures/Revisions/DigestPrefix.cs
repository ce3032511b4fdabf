namespace Stockseat.Fixtures.Revisions;

/// <summary>The first digits of a revision's digest, by which somebody says which file they mean.</summary>
public static class DigestPrefix
{
    /// <summary>With fewer digits a file could be made that has the same ones: 12 digits are 48 bits.</summary>
    public const int Least = 12;

    /// <summary>All digits of a digest: SHA-256.</summary>
    public const int Most = 64;

    /// <summary>How many digits are printed for people to copy.</summary>
    public const int Shown = 16;

    /// <summary>The expected form, for a message.</summary>
    public static string Expected { get; } = $"{Least} to {Most} hexadecimal digits, as stockseat fixture check prints them";

    /// <summary>Reads one, in upper or lower case.</summary>
    /// <param name="text">What was sent.</param>
    /// <param name="prefix">The digits in lower case, as in digests; empty when the text is not a prefix.</param>
    public static bool TryRead(string text, out string prefix)
    {
        var read = text.Length is >= Least and <= Most && text.All(char.IsAsciiHexDigit);
        prefix = read ? text.ToLowerInvariant() : "";
        return read;
    }
}
