using System.Globalization;
using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace Stockseat.Tests.Support.Certificates;

/// <summary>
/// An authority, and the certificates that it issues, in a folder of their own. Made with the platform's classes, not with the code under test.
/// </summary>
internal sealed class TestShop : IDisposable
{
    public const string Server = "1.3.6.1.5.5.7.3.1";
    public const string Client = "1.3.6.1.5.5.7.3.2";

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("stockseat-certificates-");
    private readonly X509Certificate2 _authority;

    public TestShop(string name = "Demo authority")
    {
        var request = Request(ECDsa.Create(ECCurve.NamedCurves.nistP256), name);
        request.CertificateExtensions.Add(new X509BasicConstraintsExtension(true, true, 0, true));
        request.CertificateExtensions.Add(new X509KeyUsageExtension(X509KeyUsageFlags.KeyCertSign, true));
        _authority = request.CreateSelfSigned(Now.AddDays(-400), Now.AddDays(4000));
        File.WriteAllText(Authority, _authority.ExportCertificatePem());
    }

    public string Folder => _folder.FullName;

    /// <summary>The authority's certificate.</summary>
    public string Authority => Path.Combine(Folder, "authority.pem");

    private static DateTimeOffset Now => TimeProvider.System.GetUtcNow();

    /// <summary>The file of a certificate.</summary>
    public string Pem(string name) => Path.Combine(Folder, $"{name}.pem");

    /// <summary>The file of its key.</summary>
    public string Key(string name) => Path.Combine(Folder, $"{name}.key");

    /// <summary>Issues a certificate into the folder; over another one of that name, if there is one.</summary>
    /// <param name="name">Its subject, and the name of its files.</param>
    /// <param name="use">What it is for.</param>
    /// <param name="from">From how many days from now it is valid.</param>
    /// <param name="days">Until how many days from now.</param>
    /// <param name="selfSigned">Whether it is issued by itself.</param>
    /// <param name="sameKey">Whether the key that is there stays.</param>
    /// <param name="hosts">The addresses that a service has besides 127.0.0.1.</param>
    public X509Certificate2 Issue(
        string name, string use, double from = -1, double days = 90, bool selfSigned = false, bool sameKey = false, params IPAddress[] hosts)
    {
        var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        if (sameKey)
        {
            key.ImportFromPem(File.ReadAllText(Key(name)));
        }

        var request = Request(key, name);
        var names = new SubjectAlternativeNameBuilder();
        names.AddDnsName(name);
        if (use == Server)
        {
            names.AddDnsName("localhost");
            foreach (var host in hosts.Prepend(IPAddress.Loopback))
            {
                names.AddIpAddress(host);
            }
        }

        request.CertificateExtensions.Add(names.Build());
        request.CertificateExtensions.Add(new X509EnhancedKeyUsageExtension([new Oid(use)], false));
        request.CertificateExtensions.Add(new X509KeyUsageExtension(X509KeyUsageFlags.DigitalSignature, true));
        var made = selfSigned ? request.CreateSelfSigned(Now.AddDays(from), Now.AddDays(days))
            : request.Create(_authority, Now.AddDays(from), Now.AddDays(days), RandomNumberGenerator.GetBytes(12));
        File.WriteAllText(Key(name), key.ExportPkcs8PrivateKeyPem());
        File.WriteAllText(Pem(name), made.ExportCertificatePem());
        return made;
    }

    /// <summary>A certificate of the folder with its key, ready for a handshake.</summary>
    public X509Certificate2 Load(string name) => X509Certificate2.CreateFromPemFile(Pem(name), Key(name));

    /// <summary>The pin of a certificate's key, computed here.</summary>
    public string Pin(string name)
    {
        using var certificate = X509CertificateLoader.LoadCertificateFromFile(Pem(name));
        return "sha256:" + Convert.ToHexString(SHA256.HashData(certificate.PublicKey.ExportSubjectPublicKeyInfo())).ToLower(CultureInfo.InvariantCulture);
    }

    public void Dispose()
    {
        _authority.Dispose();
        _folder.Delete(recursive: true);
    }

    private static CertificateRequest Request(ECDsa key, string name) => new($"CN={name}", key, HashAlgorithmName.SHA256);
}
