using System.Security.Cryptography.X509Certificates;

namespace Stockseat.Service.Certificates.Issuing;

/// <summary>An authority with its key, from a folder with both files.</summary>
public sealed class SigningAuthority : IDisposable
{
    /// <summary>The name of its certificate's file.</summary>
    public const string PemName = "authority.pem";

    /// <summary>The name of its key's file.</summary>
    public const string KeyName = "authority.key";

    private const string Other = "name the folder of another authority, or make one with stockseat certificate authority";

    private SigningAuthority(X509Certificate2 certificate, PrivateKey key)
    {
        var own = certificate.Extensions.OfType<X509SubjectKeyIdentifierExtension>().FirstOrDefault();
        (Certificate, Key, KeyIdentifier) = (certificate, key, own ?? new X509SubjectKeyIdentifierExtension(certificate.PublicKey, critical: false));
    }

    /// <summary>Its certificate.</summary>
    public X509Certificate2 Certificate { get; }

    /// <summary>Its key.</summary>
    public PrivateKey Key { get; }

    /// <summary>How the certificates that it signs name its key.</summary>
    public X509SubjectKeyIdentifierExtension KeyIdentifier { get; }

    /// <summary>From when on its certificate holds.</summary>
    public DateTimeOffset From => Certificate.NotBefore.ToUniversalTime();

    /// <summary>Until when its certificate holds.</summary>
    public DateTimeOffset Until => Certificate.NotAfter.ToUniversalTime();

    /// <summary>Reads an authority that can sign now.</summary>
    /// <param name="folder">The folder with both files.</param>
    /// <param name="now">The present instant.</param>
    /// <exception cref="InvalidDataException">There is none, or it can't sign; the message says why, and what to do.</exception>
    public static SigningAuthority Load(string folder, DateTimeOffset now)
    {
        var (file, keyFile) = (Path.Combine(folder, PemName), Path.Combine(folder, KeyName));
        if (!Path.Exists(file))
        {
            throw new InvalidDataException($"there is no authority in {folder}: it has no {PemName}; {Other} --out {folder}");
        }

        var found = PemCertificates.Load(file);
        PrivateKey? key = null;
        try
        {
            Check(file, found, now);
            key = LoadKey(keyFile);
            return key.BelongsTo(found[0]) ? new(found[0], key)
                : throw new InvalidDataException($"the key {keyFile} does not belong to the certificate {file}; put the right one there, or {Other}");
        }
        catch
        {
            key?.Dispose();
            foreach (var certificate in found)
            {
                certificate.Dispose();
            }

            throw;
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        Certificate.Dispose();
        Key.Dispose();
    }

    private static PrivateKey LoadKey(string file)
    {
        var key = PrivateKey.Load(file);
        if (!PrivateKey.IsOpenToOthers(file))
        {
            return key;
        }

        key.Dispose();
        throw new InvalidDataException(
            $"the authority's key {file} can be read or changed by others, who could make certificates with it; take their rights away (chmod 400 {file})");
    }

    private static void Check(string file, IReadOnlyList<X509Certificate2> found, DateTimeOffset now)
    {
        if (found.Count > 1)
        {
            throw new InvalidDataException($"{file} has {found.Count} certificates, and one was expected; leave only the authority's own there");
        }

        var facts = CertificateFacts.Of(found[0]);
        if (!facts.Uses.Contains(CertificateFacts.Authority))
        {
            throw new InvalidDataException($"the certificate {file} is not an authority's, so nobody would accept what it signs; {Other}");
        }

        if (now > facts.Until || now < facts.From)
        {
            throw new InvalidDataException(now > facts.Until
                ? $"the authority's certificate {file} ended at {facts.Until:u}, and it is {now:u}; make a new authority with stockseat certificate authority"
                : $"the authority's certificate {file} holds from {facts.From:u}, and it is {now:u}; correct the clock of this computer");
        }
    }
}
