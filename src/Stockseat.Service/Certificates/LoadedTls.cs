using System.Net.Security;
using System.Security.Cryptography.X509Certificates;

namespace Stockseat.Service.Certificates;

/// <summary>A certificate of the service that can be used, with the authorities of its clients. It lives until no handshake uses it any more.</summary>
/// <param name="Certificate">The service's own certificate.</param>
/// <param name="Context">The certificate with its key and its chain, ready for handshakes.</param>
/// <param name="Authorities">Who vouches for clients; none: clients are known by their pins only.</param>
/// <param name="Hosts">The hosts that the certificate names.</param>
public sealed record LoadedTls(
    X509Certificate2 Certificate, SslStreamCertificateContext Context, X509Certificate2Collection Authorities, IReadOnlyList<string> Hosts)
{
    /// <summary>When it ends.</summary>
    public DateTimeOffset End => new(Certificate.NotAfter.ToUniversalTime());

    /// <summary>The pin of the service's key.</summary>
    public string Pin => CertificatePin.Of(Certificate);
}
