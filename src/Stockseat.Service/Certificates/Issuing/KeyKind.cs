using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace Stockseat.Service.Certificates.Issuing;

/// <summary>The kind of a public key, in words.</summary>
internal static class KeyKind
{
    private const string Rsa = "1.2.840.113549.1.1.1";
    private const string Ec = "1.2.840.10045.2.1";

    private static readonly (string Oid, string Name)[] Others = [("1.3.101.112", "Ed25519"), ("1.3.101.113", "Ed448")];

    /// <summary>The kinds of keys that the platform can use begin so.</summary>
    public static bool IsUsable(string kind) => kind.StartsWith("EC ", StringComparison.Ordinal) || kind.StartsWith("RSA ", StringComparison.Ordinal);

    public static string Of(PublicKey key)
    {
        try
        {
            switch (key.Oid.Value)
            {
                case Rsa:
                    using (var rsa = key.GetRSAPublicKey())
                    {
                        return $"RSA {rsa!.KeySize} bits";
                    }

                case Ec:
                    using (var ec = key.GetECDsaPublicKey())
                    {
                        return $"EC {ec!.KeySize} bits";
                    }

                default:
                    return Others.FirstOrDefault(o => o.Oid == key.Oid.Value).Name ?? $"of kind {key.Oid.Value}";
            }
        }
        catch (CryptographicException)
        {
            return "of a kind that can't be read";
        }
    }
}
