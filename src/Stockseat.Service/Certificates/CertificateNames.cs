using System.Formats.Asn1;
using System.Security.Cryptography.X509Certificates;

namespace Stockseat.Service.Certificates;

/// <summary>The names in a certificate (RFC 5280, 4.2.1.6), and what it may be used for.</summary>
public static class CertificateNames
{
    /// <summary>Servers prove themselves with it (RFC 5280, 4.2.1.12).</summary>
    public const string ServerUse = "1.3.6.1.5.5.7.3.1";

    /// <summary>Clients prove themselves with it.</summary>
    public const string ClientUse = "1.3.6.1.5.5.7.3.2";

    private const string AnyUse = "2.5.29.37.0";
    private const int UriTag = 6;

    /// <summary>Its DNS names and URIs, as dns:NAME and uri:NAME. The subject's own text is no name.</summary>
    public static IEnumerable<string> Of(X509Certificate2 certificate) => Alternative(certificate) is not { } names ? [] :
        [.. names.EnumerateDnsNames().Select(n => ProofText.Dns + n.ToLowerInvariant()), .. Uris(names).Select(u => ProofText.Uri + u)];

    /// <summary>The hosts that it names: DNS names and addresses.</summary>
    public static IEnumerable<string> Hosts(X509Certificate2 certificate) => Alternative(certificate) is not { } names ? [] :
        [.. names.EnumerateDnsNames().Select(n => n.ToLowerInvariant()), .. names.EnumerateIPAddresses().Select(a => a.ToString())];

    /// <summary>Whether it may be used for something: it says so, or it states no use at all.</summary>
    public static bool MayBeUsed(X509Certificate2 certificate, string use)
    {
        var uses = certificate.Extensions.OfType<X509EnhancedKeyUsageExtension>().FirstOrDefault();
        var key = certificate.Extensions.OfType<X509KeyUsageExtension>().FirstOrDefault();
        return (uses is null || uses.EnhancedKeyUsages.Cast<System.Security.Cryptography.Oid>().Any(o => o.Value == use || o.Value == AnyUse))
            && (key is null || key.KeyUsages.HasFlag(X509KeyUsageFlags.DigitalSignature));
    }

    private static X509SubjectAlternativeNameExtension? Alternative(X509Certificate2 certificate) =>
        certificate.Extensions.OfType<X509SubjectAlternativeNameExtension>().FirstOrDefault();

    /// <summary>The platform reads DNS names and addresses only.</summary>
    private static List<string> Uris(X509SubjectAlternativeNameExtension names)
    {
        var uris = new List<string>();
        try
        {
            var reader = new AsnReader(names.RawData, AsnEncodingRules.DER).ReadSequence();
            while (reader.HasData)
            {
                var tag = reader.PeekTag();
                if (tag.HasSameClassAndValue(new(TagClass.ContextSpecific, UriTag)))
                {
                    uris.Add(reader.ReadCharacterString(UniversalTagNumber.IA5String, tag));
                }
                else
                {
                    _ = reader.ReadEncodedValue();
                }
            }
        }
        catch (AsnContentException)
        {
            return []; // A name that can't be read names nobody.
        }

        return uris;
    }
}
