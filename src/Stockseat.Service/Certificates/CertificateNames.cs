using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace Stockseat.Service.Certificates;

/// <summary>The names in a certificate that count, and what it may be used for.</summary>
public static class CertificateNames
{
    /// <summary>Servers prove themselves with it (RFC 5280, 4.2.1.12).</summary>
    public const string ServerUse = "1.3.6.1.5.5.7.3.1";

    /// <summary>Clients prove themselves with it.</summary>
    public const string ClientUse = "1.3.6.1.5.5.7.3.2";

    private const string AnyUse = "2.5.29.37.0";
    private const string Address = "ip:";

    /// <summary>Its DNS names and URIs, as dns:NAME and uri:NAME. The subject's own text is no name.</summary>
    public static IEnumerable<string> Of(X509Certificate2 certificate)
    {
        var names = Read(certificate);
        return [.. Named(names, ProofText.Dns).Select(n => ProofText.Dns + n.ToLowerInvariant()), .. names.Where(n => Is(n, ProofText.Uri))];
    }

    /// <summary>The hosts that it names: DNS names and addresses.</summary>
    public static IEnumerable<string> Hosts(X509Certificate2 certificate)
    {
        var names = Read(certificate);
        return [.. Named(names, ProofText.Dns).Select(n => n.ToLowerInvariant()), .. Named(names, Address)];
    }

    /// <summary>Whether it may be used for something: it says so, or it states no use at all.</summary>
    public static bool MayBeUsed(X509Certificate2 certificate, string use)
    {
        var key = certificate.Extensions.OfType<X509KeyUsageExtension>().FirstOrDefault();
        return Allows(certificate, use) && (key is null || key.KeyUsages.HasFlag(X509KeyUsageFlags.DigitalSignature));
    }

    /// <summary>Whether the purposes that it lists allow a use. Without a list it may be used for each.</summary>
    public static bool Allows(X509Certificate2 certificate, string use)
    {
        var uses = certificate.Extensions.OfType<X509EnhancedKeyUsageExtension>().FirstOrDefault();
        return uses is null || uses.EnhancedKeyUsages.Cast<Oid>().Any(o => o.Value is { } value && (value == use || value == AnyUse));
    }

    /// <summary>Names that can't be read name nobody.</summary>
    private static IReadOnlyList<string> Read(X509Certificate2 certificate)
    {
        try
        {
            return AlternativeName.Of(certificate);
        }
        catch (CryptographicException)
        {
            return [];
        }
    }

    private static IEnumerable<string> Named(IReadOnlyList<string> names, string kind) => names.Where(n => Is(n, kind)).Select(n => n[kind.Length..]);

    private static bool Is(string name, string kind) => name.StartsWith(kind, StringComparison.Ordinal);
}
