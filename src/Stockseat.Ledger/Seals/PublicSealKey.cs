using System.Security.Cryptography;

namespace Stockseat.Ledger.Seals;

/// <summary>The half of a key that checks seals.</summary>
public sealed class PublicSealKey
{
    private readonly byte[] _info;

    private PublicSealKey(byte[] info) => (_info, Fingerprint) = (info, Convert.ToHexStringLower(SHA256.HashData(info)));

    /// <summary>SHA-256 of its SubjectPublicKeyInfo (DER), in lower-case hexadecimal.</summary>
    public string Fingerprint { get; }

    /// <summary>Its SubjectPublicKeyInfo in base64, as a seal carries it.</summary>
    public string Base64 => Convert.ToBase64String(_info);

    /// <summary>From base64, as a seal carries it; null when it is no key on P-256.</summary>
    public static PublicSealKey? FromBase64(string text)
    {
        var info = new byte[text.Length];
        return Convert.TryFromBase64String(text, info, out var length) ? From(info[..length]) : null;
    }

    /// <summary>From PEM ("BEGIN PUBLIC KEY"); null when it is no key on P-256.</summary>
    public static PublicSealKey? FromPem(string text)
    {
        try
        {
            using var key = ECDsa.Create();
            key.ImportFromPem(text);
            return From(key.ExportSubjectPublicKeyInfo());
        }
        catch (Exception e) when (e is CryptographicException or ArgumentException)
        {
            return null;
        }
    }

    /// <summary>Whether a signature is this key's over a message.</summary>
    /// <param name="message">What was signed.</param>
    /// <param name="signature">DER, in base64.</param>
    public bool Verifies(ReadOnlySpan<byte> message, string signature)
    {
        var bytes = new byte[signature.Length];
        if (!Convert.TryFromBase64String(signature, bytes, out var length))
        {
            return false;
        }

        using var key = ECDsa.Create();
        key.ImportSubjectPublicKeyInfo(_info, out _);
        return key.VerifyData(message, bytes.AsSpan(0, length), HashAlgorithmName.SHA256, DSASignatureFormat.Rfc3279DerSequence);
    }

    private static PublicSealKey? From(byte[] info)
    {
        try
        {
            using var key = ECDsa.Create();
            key.ImportSubjectPublicKeyInfo(info, out var read);
            // Anything appended, or another curve, would be another key under the same signature.
            return read == info.Length && key.ExportParameters(false).Curve.Oid.Value == ECCurve.NamedCurves.nistP256.Oid.Value ? new(info) : null;
        }
        catch (CryptographicException)
        {
            return null;
        }
    }
}
