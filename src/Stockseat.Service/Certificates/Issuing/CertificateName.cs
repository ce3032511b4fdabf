using Stockseat.Service.Texts;

namespace Stockseat.Service.Certificates.Issuing;

/// <summary>Names that a certificate can have.</summary>
public static class CertificateName
{
    /// <summary>What is expected of the name of a certificate, in words.</summary>
    public const string Expected = "1 to 40 letters, digits, hyphens and points, such as lathe-4; not an address, and no hyphen or point at an end";

    private const int LongestDns = 253;
    private const int LongestLabel = 63;

    /// <summary>Whether a text can name a certificate: it is the name of a file, of a client in the configuration, and a name in the certificate.</summary>
    public static bool IsName(string text) => NameText.IsName(text) && IsDns(text);

    /// <summary>Whether a text is a DNS name: RFC 1123, 2.1. No name ends in a bare number, so such a text is meant as an address.</summary>
    public static bool IsDns(string text) =>
        text.Length <= LongestDns && text.Split('.') is var labels && labels.All(IsLabel) && !labels[^1].All(char.IsAsciiDigit);

    private static bool IsLabel(string label) =>
        label.Length is > 0 and <= LongestLabel && label[0] != '-' && label[^1] != '-' && label.All(c => char.IsAsciiLetterOrDigit(c) || c == '-');
}
