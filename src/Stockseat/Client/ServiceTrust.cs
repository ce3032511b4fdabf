using System.Net.Security;
using System.Security.Authentication;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text;
using Stockseat.Fixtures.Files;
using Stockseat.Service.Certificates;

namespace Stockseat.Cli.Client;

/// <summary>TLS to a service: whom this side trusts, how it shows who it is, and, when it did not trust the service, why.</summary>
internal sealed class ServiceTrust
{
    private const int Longest = 1 << 20;

    private readonly ServiceAccess _access;
    private readonly X509Certificate2Collection? _authorities;
    private readonly SslStreamCertificateContext? _own;

    /// <summary>Reads the files that were named.</summary>
    /// <exception cref="InvalidDataException">One of them can't be used; the message says what is wrong and what to do.</exception>
    public ServiceTrust(ServiceAccess access)
    {
        _access = access;
        _authorities = access.Authority is { } authority ? Certificates("--authority", authority) : null;
        _own = access.Certificate is { } certificate ? Own(certificate, access.Key ?? Path.ChangeExtension(certificate, OwnCertificate.KeyExtension)) : null;
    }

    /// <summary>Why this side did not trust the service; null: it did, or it did not come to that.</summary>
    public string? Fault { get; private set; }

    /// <summary>What connects.</summary>
    public SocketsHttpHandler Handler()
    {
        var handler = new SocketsHttpHandler { EnableMultipleHttp2Connections = false };
        if (!_access.IsTls)
        {
            return handler;
        }

        handler.SslOptions = new()
        {
            EnabledSslProtocols = SslProtocols.Tls12 | SslProtocols.Tls13,
            ClientCertificateContext = _own,
            CertificateRevocationCheckMode = X509RevocationMode.NoCheck,
            RemoteCertificateValidationCallback = (_, certificate, chain, errors) => Trusts(certificate as X509Certificate2, chain, errors),
        };
        if (_authorities is not null)
        {
            handler.SslOptions.CertificateChainPolicy = OwnCertificate.Policy(_authorities, CertificateNames.ServerUse);
        }

        return handler;
    }

    private bool Trusts(X509Certificate2? certificate, X509Chain? chain, SslPolicyErrors errors)
    {
        if (errors == SslPolicyErrors.None)
        {
            return true;
        }

        if (certificate is null)
        {
            Fault = "it showed no certificate";
            return false;
        }

        var host = new Uri(_access.Server).Host;
        var named = string.Join(", ", CertificateNames.Hosts(certificate));
        var status = chain?.ChainStatus.Aggregate(X509ChainStatusFlags.NoError, (all, s) => all | s.Status) ?? X509ChainStatusFlags.NoError;
        var whose = $"its certificate ({certificate.Subject}, issued by {certificate.Issuer})";
        Fault = (errors & SslPolicyErrors.RemoteCertificateNameMismatch) != 0 && (errors & SslPolicyErrors.RemoteCertificateChainErrors) == 0
            ? $"{whose} is for {(named.Length > 0 ? named : "no host")}, not for {host}; use a name that it has, or issue one that names {host}"
            : status.HasFlag(X509ChainStatusFlags.NotTimeValid)
                ? $"{whose} is valid from {certificate.NotBefore.ToUniversalTime():u} to {certificate.NotAfter.ToUniversalTime():u}; issue a new one, or set "
                    + "the clock"
            : status.HasFlag(X509ChainStatusFlags.NotValidForUsage) ? $"{whose} is not for a server; issue one for a service"
            : $"{whose} is not from {(_access.Authority is { } a ? $"the authority in {a}" : "an authority that this machine trusts")}; name the right one "
                + "with --authority";
        return false;
    }

    private static X509Certificate2Collection Certificates(string option, string path)
    {
        var found = new X509Certificate2Collection();
        try
        {
            found.ImportFromPem(Text(option, path));
        }
        catch (CryptographicException e)
        {
            throw new InvalidDataException($"{option}: {path} has a certificate that can't be read ({e.Message.TrimEnd('.')})", e);
        }

        return found.Count > 0 ? found : throw new InvalidDataException($"{option}: {path} has no certificate; a certificate in PEM was expected");
    }

    private static SslStreamCertificateContext Own(string certificate, string key)
    {
        var chain = Certificates("--certificate", certificate);
        try
        {
            return OwnCertificate.Join(chain, Text("--key", key)).Context;
        }
        catch (Exception e) when (e is CryptographicException or ArgumentException)
        {
            throw new InvalidDataException($"--key: {key} is not the key of {certificate}, or is no key in PEM without a password ({e.Message.TrimEnd('.')})",
                e);
        }
    }

    private static string Text(string option, string path)
    {
        try
        {
            return Encoding.ASCII.GetString(RegularFile.Read(path, Longest));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new InvalidDataException($"{option}: {path} {RegularFile.What(path, e)}", e);
        }
    }
}
