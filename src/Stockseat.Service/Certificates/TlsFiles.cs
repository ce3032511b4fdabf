using System.Globalization;
using System.Net.Security;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text;
using Stockseat.Fixtures.Files;

namespace Stockseat.Service.Certificates;

/// <summary>The bytes of the files of a <see cref="TlsSettings"/>, and what they amount to.</summary>
/// <param name="Certificate">The service's certificate and its chain.</param>
/// <param name="Key">Its key.</param>
/// <param name="Authorities">Who vouches for clients.</param>
public sealed record TlsFiles(byte[] Certificate, byte[] Key, byte[] Authorities)
{
    private const int Longest = 1 << 20;

    /// <summary>Reads the files.</summary>
    /// <exception cref="InvalidDataException">One of them can't be read; the message says which and why.</exception>
    public static TlsFiles Read(TlsSettings settings) => new(
        Read("Tls:Certificate", settings.Certificate), Read("Tls:Key", settings.Key),
        settings.Authorities is { } authorities ? Read("Tls:Authorities", authorities) : []);

    /// <summary>Whether these are the same bytes.</summary>
    public bool IsSame(TlsFiles? other) => other is not null && Certificate.AsSpan().SequenceEqual(other.Certificate)
        && Key.AsSpan().SequenceEqual(other.Key) && Authorities.AsSpan().SequenceEqual(other.Authorities);

    /// <summary>What the files amount to.</summary>
    /// <param name="settings">Their names, for messages.</param>
    /// <param name="now">The instant: a certificate that has ended is of no use.</param>
    /// <exception cref="InvalidDataException">They can't be used; the message says what is wrong and what to do.</exception>
    public LoadedTls Load(TlsSettings settings, DateTimeOffset now)
    {
        var chain = Parsed("Tls:Certificate", settings.Certificate, Certificate);
        var authorities = settings.Authorities is { } path ? Parsed("Tls:Authorities", path, Authorities) : [];
        var own = chain[0];
        if (own.NotAfter.ToUniversalTime() <= now.UtcDateTime)
        {
            throw new InvalidDataException($"Tls:Certificate: {settings.Certificate} ended on {Day(own.NotAfter)}; issue a new one");
        }

        if (!CertificateNames.MayBeUsed(own, CertificateNames.ServerUse))
        {
            throw new InvalidDataException(
                $"Tls:Certificate: {settings.Certificate} may not be used by a server (its extended key usage lacks server authentication); issue one for a "
                    + "service");
        }

        var (usable, context) = WithKey(settings, chain);
        return new(usable, context, authorities, [.. CertificateNames.Hosts(own)]);
    }

    private static byte[] Read(string name, string path)
    {
        try
        {
            return RegularFile.Read(path, Longest);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new InvalidDataException($"{name}: {path} {RegularFile.What(path, e)}", e);
        }
    }

    private static X509Certificate2Collection Parsed(string name, string path, byte[] bytes)
    {
        var certificates = new X509Certificate2Collection();
        try
        {
            certificates.ImportFromPem(Encoding.ASCII.GetString(bytes));
        }
        catch (CryptographicException e)
        {
            throw new InvalidDataException($"{name}: {path} has a certificate that can't be read ({e.Message.TrimEnd('.')}); issue it again", e);
        }

        return certificates.Count > 0 ? certificates
            : throw new InvalidDataException($"{name}: {path} has no certificate; PEM, which begins with -----BEGIN CERTIFICATE-----, was expected");
    }

    private (X509Certificate2 Certificate, SslStreamCertificateContext Context) WithKey(TlsSettings settings, X509Certificate2Collection chain)
    {
        var pem = Encoding.ASCII.GetString(Key);
        if (pem.Contains("ENCRYPTED", StringComparison.Ordinal))
        {
            throw new InvalidDataException($"Tls:Key: {settings.Key} has a password, which nobody can type at a start; store the key without one, readable "
                + "only by the service");
        }

        try
        {
            return OwnCertificate.Join(chain, pem);
        }
        catch (Exception e) when (e is CryptographicException or ArgumentException)
        {
            throw new InvalidDataException(
                $"Tls:Key: {settings.Key} is not the key of {settings.Certificate}, or is no key in PEM ({e.Message.TrimEnd('.')}); name the two files that "
                + "were made together", e);
        }
    }

    private static string Day(DateTime end) => end.ToUniversalTime().ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
