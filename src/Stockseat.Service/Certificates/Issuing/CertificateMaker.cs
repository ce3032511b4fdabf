using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace Stockseat.Service.Certificates.Issuing;

/// <summary>What somebody wants a certificate for.</summary>
/// <param name="Name">Its name; for a client also the name that it proves.</param>
/// <param name="Use">What it is for.</param>
/// <param name="Hosts">For a service: under which names and addresses callers reach it.</param>
/// <param name="Uri">For a client: another name that it proves; null for none.</param>
/// <param name="Days">For how many days from now.</param>
public sealed record CertificateRequested(string Name, CertificateUse Use, IReadOnlyList<HostName> Hosts, Uri? Uri, int Days);

/// <summary>A certificate that was made.</summary>
/// <param name="Certificate">The certificate, without its key.</param>
/// <param name="IsCut">Whether it ends earlier than was asked, because the authority's certificate ends then.</param>
public sealed record CertificateIssued(X509Certificate2 Certificate, bool IsCut) : IDisposable
{
    /// <inheritdoc/>
    public void Dispose() => Certificate.Dispose();
}

/// <summary>Makes certificates (RFC 5280).</summary>
public static class CertificateMaker
{
    private const int SerialBytes = 16;

    /// <summary>A certificate holds from so long before it is made: computers whose clocks are a little behind take it at once.</summary>
    private static readonly TimeSpan Earlier = TimeSpan.FromHours(1);

    /// <summary>Makes the certificate of an authority, which can sign certificates but no further authority.</summary>
    /// <param name="name">The authority's name.</param>
    /// <param name="key">Its key.</param>
    /// <param name="years">For how many years from now.</param>
    /// <param name="now">The present instant.</param>
    public static X509Certificate2 Authority(string name, PrivateKey key, int years, DateTimeOffset now)
    {
        var request = Request(name, key.Public);
        request.CertificateExtensions.Add(
            new X509BasicConstraintsExtension(certificateAuthority: true, hasPathLengthConstraint: true, pathLengthConstraint: 0, critical: true));
        request.CertificateExtensions.Add(new X509KeyUsageExtension(X509KeyUsageFlags.KeyCertSign | X509KeyUsageFlags.CrlSign, critical: true));
        request.CertificateExtensions.Add(new X509SubjectKeyIdentifierExtension(key.Public, critical: false));
        return request.Create(request.SubjectName, key.Signer, Second(now - Earlier), Second(now.AddYears(years)), Serial());
    }

    /// <summary>Makes a certificate of a service or a client. It never holds before or after the authority's.</summary>
    /// <param name="asked">What it is for.</param>
    /// <param name="key">Its public key.</param>
    /// <param name="authority">Who signs it.</param>
    /// <param name="now">The present instant.</param>
    public static CertificateIssued Issue(CertificateRequested asked, PublicKey key, SigningAuthority authority, DateTimeOffset now)
    {
        var request = Request(asked.Name, key);
        var use = asked.Use == CertificateUse.Service ? CertificateNames.ServerUse : CertificateNames.ClientUse;
        request.CertificateExtensions.Add(new X509BasicConstraintsExtension(false, false, 0, critical: true));
        request.CertificateExtensions.Add(new X509KeyUsageExtension(X509KeyUsageFlags.DigitalSignature, critical: true));
        request.CertificateExtensions.Add(new X509EnhancedKeyUsageExtension([new Oid(use)], critical: false));
        request.CertificateExtensions.Add(Names(asked));
        request.CertificateExtensions.Add(new X509SubjectKeyIdentifierExtension(key, critical: false));
        request.CertificateExtensions.Add(X509AuthorityKeyIdentifierExtension.CreateFromSubjectKeyIdentifier(authority.KeyIdentifier));
        var (from, until) = (Second(now - Earlier), Second(now.AddDays(asked.Days)));
        var isCut = until > authority.Until;
        return new(
            request.Create(
                authority.Certificate.SubjectName, authority.Key.Signer, from < authority.From ? authority.From : from, isCut ? authority.Until : until,
                Serial()),
            isCut);
    }

    private static CertificateRequest Request(string name, PublicKey key)
    {
        var subject = new X500DistinguishedNameBuilder();
        subject.AddCommonName(name);
        return new(subject.Build(), key, HashAlgorithmName.SHA256);
    }

    private static X509Extension Names(CertificateRequested asked)
    {
        var names = new SubjectAlternativeNameBuilder();
        if (asked.Use == CertificateUse.Client)
        {
            names.AddDnsName(asked.Name);
        }

        if (asked.Uri is { } uri)
        {
            names.AddUri(uri);
        }

        foreach (var host in asked.Hosts)
        {
            if (host.Address is { } address)
            {
                names.AddIpAddress(address);
            }
            else
            {
                names.AddDnsName(host.Text);
            }
        }

        return names.Build();
    }

    /// <summary>Certificates have whole seconds.</summary>
    private static DateTimeOffset Second(DateTimeOffset at) => DateTimeOffset.FromUnixTimeSeconds(at.ToUnixTimeSeconds());

    /// <summary>A random number above 0: nobody keeps a list of the certificates made.</summary>
    private static byte[] Serial()
    {
        var serial = RandomNumberGenerator.GetBytes(SerialBytes);
        serial[0] = (byte)((serial[0] & 0x3F) | 0x40);
        return serial;
    }
}
