using System.Net.Security;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace Stockseat.Service.Certificates;

/// <summary>What either side of TLS needs: its own certificate with its key, and how it examines the other side's.</summary>
public static class OwnCertificate
{
    /// <summary>The end of the name of the key's file beside a certificate's.</summary>
    public const string KeyExtension = ".key";

    /// <summary>The first certificate of a chain with its key, and both with the chain, ready for handshakes.</summary>
    /// <param name="chain">The certificate, and those between it and its authority.</param>
    /// <param name="key">The key, as the text of a PEM file.</param>
    /// <exception cref="CryptographicException">It is not the key of the certificate.</exception>
    /// <exception cref="ArgumentException">There is no key in the text.</exception>
    public static (X509Certificate2 Certificate, SslStreamCertificateContext Context) Join(X509Certificate2Collection chain, string key)
    {
        var joined = X509Certificate2.CreateFromPem(chain[0].ExportCertificatePem(), key);
        // Windows' TLS can't use a key that lies in memory only.
        var usable = OperatingSystem.IsWindows() ? X509CertificateLoader.LoadPkcs12(joined.Export(X509ContentType.Pkcs12), null) : joined;
        return (usable, SslStreamCertificateContext.Create(usable, chain, offline: true));
    }

    /// <summary>Examines certificates by these authorities alone, never by those of the machine, and without asking the network.</summary>
    /// <param name="authorities">Who vouches.</param>
    /// <param name="use">What a certificate has to be for.</param>
    public static X509ChainPolicy Policy(X509Certificate2Collection authorities, string use)
    {
        var policy = new X509ChainPolicy
        {
            TrustMode = X509ChainTrustMode.CustomRootTrust, RevocationMode = X509RevocationMode.NoCheck, DisableCertificateDownloads = true,
        };
        policy.ApplicationPolicy.Add(new Oid(use));
        policy.CustomTrustStore.AddRange(authorities);
        policy.ExtraStore.AddRange(authorities);
        return policy;
    }
}
