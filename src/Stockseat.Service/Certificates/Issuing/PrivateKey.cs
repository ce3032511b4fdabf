using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace Stockseat.Service.Certificates.Issuing;

/// <summary>The private key of a certificate: EC or RSA, which are the kinds that the platform can use.</summary>
public sealed class PrivateKey : IDisposable
{
    private const UnixFileMode Others =
        UnixFileMode.GroupRead | UnixFileMode.GroupWrite | UnixFileMode.GroupExecute | UnixFileMode.OtherRead | UnixFileMode.OtherWrite
        | UnixFileMode.OtherExecute;

    private const string Expected = "a private key in PEM (BEGIN PRIVATE KEY)";

    private readonly AsymmetricAlgorithm _key;

    private PrivateKey(AsymmetricAlgorithm key) => (_key, Public, Signer) = key is RSA rsa
        ? (key, new PublicKey(rsa), X509SignatureGenerator.CreateForRSA(rsa, RSASignaturePadding.Pkcs1))
        : (key, new PublicKey((ECDsa)key), X509SignatureGenerator.CreateForECDsa((ECDsa)key));

    /// <summary>The public half.</summary>
    public PublicKey Public { get; }

    /// <summary>Signs certificates with the key.</summary>
    public X509SignatureGenerator Signer { get; }

    /// <summary>The private key as the text of a file: PKCS#8 in PEM, not encrypted.</summary>
    public string Pem => $"{_key.ExportPkcs8PrivateKeyPem()}\n";

    /// <summary>Makes a new one, on the curve P-256.</summary>
    public static PrivateKey Make() => new(ECDsa.Create(ECCurve.NamedCurves.nistP256));

    /// <summary>Reads one from a file.</summary>
    /// <param name="path">The file, in PEM.</param>
    /// <exception cref="InvalidDataException">It can't be read, or is not a key that can be used; the message says what to do.</exception>
    public static PrivateKey Load(string path)
    {
        var text = PemFile.Read(path, Expected);
        var sections = PemFile.Sections(text);
        if (sections.Any(s => s.Label == "ENCRYPTED PRIVATE KEY") || text.Contains("Proc-Type: 4,ENCRYPTED", StringComparison.Ordinal))
        {
            throw new InvalidDataException(
                $"the key {path} is encrypted, and Stockseat asks for no password; write a copy without one, for its owner alone: "
                    + $"(umask 077; openssl pkey -in {path} -out NEW)");
        }

        return sections.FirstOrDefault(s => s.IsPrivateKey) is not { } found
            ? throw new InvalidDataException($"{path} has no private key; {Expected} was expected: name the file with the key")
            : Import<ECDsa>(ECDsa.Create(), found) ?? Import<RSA>(RSA.Create(), found) ?? throw new InvalidDataException(
                $"the key {path} is neither an EC nor an RSA key, or is damaged, and can't be used; make a new one by issuing a certificate without --key");
    }

    /// <summary>Whether others than the owner may read or change the file of a key. Nothing is known of that on Windows.</summary>
    public static bool IsOpenToOthers(string path) => !OperatingSystem.IsWindows() && (File.GetUnixFileMode(path) & Others) != 0;

    /// <summary>Whether a certificate is of this key.</summary>
    public bool BelongsTo(X509Certificate2 certificate) =>
        certificate.PublicKey.ExportSubjectPublicKeyInfo().AsSpan().SequenceEqual(Public.ExportSubjectPublicKeyInfo());

    /// <inheritdoc/>
    public void Dispose() => _key.Dispose();

    private static PrivateKey? Import<T>(T key, PemSection section)
        where T : AsymmetricAlgorithm
    {
        try
        {
            key.ImportFromPem(section.Text);
            return new(key);
        }
        catch (Exception e) when (e is CryptographicException or ArgumentException)
        {
            key.Dispose();
            return null;
        }
    }
}
