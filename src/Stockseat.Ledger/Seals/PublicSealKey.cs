using System.Security.Cryptography;

namespace Stockseat.Ledger.Seals;

/// <summary>The public half of a key, which checks seals.</summary>
public sealed class PublicSealKey
{
    private readonly byte[] _info;

    private PublicSealKey(byte[] info) => (_info, Fingerprint) = (info, Convert.ToHexStringLower(SHA256.HashData(info)));

    /// <summary>SHA-256 of its SubjectPublicKeyInfo (DER), in lower-case hexadecimal.</summary>
    public string Fingerprint { get; }

    /// <summary>Its SubjectPublicKeyInfo in base64, in the form that a seal carries.</summary>
    public string Base64 => Convert.ToBase64String(_info);

    /// <summary>Reads it from base64, as in a seal; null when it is not a key on P-256.</summary>
    public static PublicSealKey? FromBase64(string text)
    {
        var info = new byte[text.Length];
        return Convert.TryFromBase64String(text, info, out var length) ? From(info[..length]) : null;
    }

    /// <summary>Reads it from PEM ("BEGIN PUBLIC KEY"); null when it is not a key on P-256.</summary>
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

    /// <summary>Whether a signature of a message was made with this key.</summary>
    /// <param name="message">The signed message.</param>
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
            // Appended bytes, or another curve, would make another key with the same signature.
            return read == info.Length && key.ExportParameters(false).Curve.Oid.Value == ECCurve.NamedCurves.nistP256.Oid.Value ? new(info) : null;
        }
        catch (CryptographicException)
        {
            return null;
        }
    }
}
