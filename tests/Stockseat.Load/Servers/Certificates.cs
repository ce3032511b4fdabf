using System.Net.Security;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace Stockseat.Load.Servers;

/// <summary>A certificate for the service and one for its clients, on the curve P-256 as <c>stockseat certificate</c> makes them.</summary>
internal sealed class Certificates
{
    public Certificates(string folder)
    {
        (Pem, Key) = (Path.Combine(folder, "service.pem"), Path.Combine(folder, "service.key"));
        using var service = Make("service", "1.3.6.1.5.5.7.3.1", out var key);
        File.WriteAllText(Pem, service.ExportCertificatePem());
        File.WriteAllText(Key, key);
        Client = Make("load", "1.3.6.1.5.5.7.3.2", out _);
        Pin = "sha256:" + Convert.ToHexStringLower(SHA256.HashData(Client.PublicKey.ExportSubjectPublicKeyInfo()));
    }

    public string Pem { get; }

    public string Key { get; }

    /// <summary>The pin of the clients' key.</summary>
    public string Pin { get; }

    /// <summary>The clients' certificate, with its key.</summary>
    public X509Certificate2 Client { get; }

    /// <summary>How a client agrees on TLS: it trusts everybody, since what is measured is the service.</summary>
    public SslClientAuthenticationOptions Options() => new()
    {
        TargetHost = "localhost", ClientCertificates = [Client], RemoteCertificateValidationCallback = (_, _, _, _) => true,
    };

    private static X509Certificate2 Make(string name, string use, out string key)
    {
        using var own = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        key = own.ExportPkcs8PrivateKeyPem();
        var request = new CertificateRequest($"CN={name}", own, HashAlgorithmName.SHA256);
        request.CertificateExtensions.Add(new X509EnhancedKeyUsageExtension([new Oid(use)], false));
        request.CertificateExtensions.Add(new X509KeyUsageExtension(X509KeyUsageFlags.DigitalSignature, true));
        var now = TimeProvider.System.GetUtcNow();
        return request.CreateSelfSigned(now.AddDays(-1), now.AddDays(2));
    }
}
