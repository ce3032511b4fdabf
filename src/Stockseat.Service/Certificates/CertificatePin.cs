using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace Stockseat.Service.Certificates;

/// <summary>
/// The pin of a certificate: SHA-256 of its public key (the SubjectPublicKeyInfo in DER), as sha256: and 64 hexadecimal digits. It stays the same when the
/// certificate is renewed with the same key.
/// </summary>
public static class CertificatePin
{
    /// <summary>What a pin begins with.</summary>
    public const string Prefix = "sha256:";

    /// <summary>What was expected where a pin can't be read.</summary>
    public const string Expected = "sha256: and 64 hexadecimal digits";

    private const int Digits = 2 * SHA256.HashSizeInBytes;

    /// <summary>The pin of a certificate.</summary>
    public static string Of(X509Certificate2 certificate) =>
        Prefix + Convert.ToHexStringLower(SHA256.HashData(certificate.PublicKey.ExportSubjectPublicKeyInfo()));

    /// <summary>A pin as a person typed it, in its usual form; null when it is none.</summary>
    public static string? Read(string text) =>
        text.StartsWith(Prefix, StringComparison.OrdinalIgnoreCase) && text.Length == Prefix.Length + Digits && text[Prefix.Length..].All(char.IsAsciiHexDigit)
            ? text.ToLowerInvariant() : null;
}
