using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace Stockseat.Service.Certificates.Issuing;

/// <summary>What a certificate says.</summary>
/// <param name="Subject">Whose it is.</param>
/// <param name="Issuer">Who signed it.</param>
/// <param name="Names">Its alternative names, such as dns:cell-server and ip:192.0.2.7: the only ones that count.</param>
/// <param name="Uses">What it may be used for: service, client, authority.</param>
/// <param name="Key">The kind of its key, such as EC P-256.</param>
/// <param name="Pin">The pin of its public key.</param>
/// <param name="From">From when on it holds.</param>
/// <param name="Until">Until when it holds.</param>
/// <param name="IsSelfIssued">Whether issuer and subject are the same.</param>
public sealed record CertificateFacts(
    string Subject, string Issuer, IReadOnlyList<string> Names, IReadOnlyList<string> Uses, string Key, string Pin, DateTimeOffset From, DateTimeOffset Until,
    bool IsSelfIssued)
{
    /// <summary>The use of an authority.</summary>
    public const string Authority = "authority";

    private static readonly (string Word, string Use)[] KnownUses =
        [("service", CertificateNames.ServerUse), ("client", CertificateNames.ClientUse)];

    /// <summary>Reads them from a certificate.</summary>
    /// <param name="certificate">The certificate.</param>
    /// <exception cref="CryptographicException">One of its extensions can't be read.</exception>
    public static CertificateFacts Of(X509Certificate2 certificate) => new(
        certificate.Subject, certificate.Issuer, AlternativeName.Of(certificate), UsesOf(certificate), KeyKind.Of(certificate.PublicKey),
        CertificatePin.Of(certificate),
        certificate.NotBefore.ToUniversalTime(), certificate.NotAfter.ToUniversalTime(),
        certificate.SubjectName.RawData.AsSpan().SequenceEqual(certificate.IssuerName.RawData));

    /// <summary>How many whole days are left; 0 on the last day and after the end.</summary>
    public int DaysLeft(DateTimeOffset now) => Math.Max(0, (int)Math.Floor((Until - now).TotalDays));

    /// <summary>
    /// An authority has to be one and to be allowed to sign. Without a list of purposes a certificate may be used for each (RFC 5280, 4.2.1.12).
    /// </summary>
    private static IReadOnlyList<string> UsesOf(X509Certificate2 certificate)
    {
        var usage = certificate.Extensions.OfType<X509KeyUsageExtension>().FirstOrDefault()?.KeyUsages;
        if (certificate.Extensions.OfType<X509BasicConstraintsExtension>().Any(b => b.CertificateAuthority))
        {
            return usage is null || usage.Value.HasFlag(X509KeyUsageFlags.KeyCertSign) ? [Authority] : [];
        }

        return [.. KnownUses.Where(u => CertificateNames.Allows(certificate, u.Use)).Select(u => u.Word)];
    }
}
