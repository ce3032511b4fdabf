using System.Security.Cryptography;
using System.Text;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;
using Stockseat.Fixtures.Files;

namespace Stockseat.Ledger.Seals;

/// <summary>The key that seals the ledger, from a file outside the data folder.</summary>
public sealed class SealKey : IDisposable
{
    private const UnixFileMode Others =
        UnixFileMode.GroupRead | UnixFileMode.GroupWrite | UnixFileMode.GroupExecute | UnixFileMode.OtherRead | UnixFileMode.OtherWrite
        | UnixFileMode.OtherExecute;

    private const int Longest = 64 * 1024;
    private const string Make = "make one as install/README.md shows (Sealing and anchors)";

    private readonly ECDsa _key;

    private SealKey(ECDsa key) => (_key, Public) = (key, PublicSealKey.FromPem(key.ExportSubjectPublicKeyInfoPem())!);

    /// <summary>The public half, which checks seals.</summary>
    public PublicSealKey Public { get; }

    /// <summary>Reads a private key on P-256 from PEM.</summary>
    /// <param name="path">The file.</param>
    /// <param name="data">The data folder; the file must not be in it.</param>
    /// <exception cref="InvalidDataException">The key can't be used; the message says why, and what to do.</exception>
    public static SealKey Load(string path, string data)
    {
        var full = Path.GetFullPath(path);
        var key = ECDsa.Create();
        try
        {
            if (RealPath.IsIn(full, data))
            {
                throw new InvalidDataException($"the key {full} is in the data folder, so whoever copies the ledger would have it; put it elsewhere");
            }

            var pem = Read(full);
            key.ImportFromPem(pem);
            if (!pem.Contains("PRIVATE KEY-----", StringComparison.Ordinal))
            {
                throw new InvalidDataException($"the key {full} is a public key, which can't seal; name the file with the private one");
            }

            return key.ExportParameters(true).Curve.Oid.Value == ECCurve.NamedCurves.nistP256.Oid.Value
                ? new(key)
                : throw new InvalidDataException($"the key {full} is not on the curve P-256; {Make}");
        }
        catch (Exception e)
        {
            key.Dispose();
            throw e switch
            {
                FileNotFoundException or DirectoryNotFoundException => new InvalidDataException($"the key {full} does not exist; {Make}, or correct the path"),
                IOException or UnauthorizedAccessException => new InvalidDataException(
                    $"the key {full} {RegularFile.What(full, e)}; it has to be a file that belongs to the user that runs the service"),
                CryptographicException or ArgumentException =>
                    new InvalidDataException(
                    $"the key {full} is not a private key on the curve P-256, in PEM and without a password: {e.Message.TrimEnd('.')}; {Make}"),
                _ => e,
            };
        }
    }

    /// <summary>Makes the body of a seal. The writer sets its serial and instant; the instant is signed too.</summary>
    /// <param name="ledger">The ledger's id.</param>
    /// <param name="serial">The last entry that the seal covers.</param>
    /// <param name="hash">The hash of that entry.</param>
    /// <param name="at">The instant that the entry of the seal will have.</param>
    /// <param name="before">The key of the seal before; null when there is none.</param>
    public SealBody Seal(string ledger, long serial, ReadOnlySpan<byte> hash, DateTimeOffset at, string? before)
    {
        var head = Convert.ToHexStringLower(hash);
        var message = SealMessage.Of(ledger, serial, head, EntryTime.Text(at));
        return new()
        {
            Ledger = ledger,
            Sealed = serial,
            Head = head,
            Key = Public.Fingerprint,
            PublicKey = before == Public.Fingerprint ? null : Public.Base64,
            Signature = Convert.ToBase64String(_key.SignData(message, HashAlgorithmName.SHA256, DSASignatureFormat.Rfc3279DerSequence)),
        };
    }

    /// <inheritdoc/>
    public void Dispose() => _key.Dispose();

    /// <summary>Reads the text; the access rights are checked on the very file that was opened.</summary>
    private static string Read(string full)
    {
        using var file = RegularFile.Open(full);
        if (!OperatingSystem.IsWindows() && (File.GetUnixFileMode(file) & Others) != 0)
        {
            throw new InvalidDataException($"the key {full} can be read or changed by others; take their rights away (chmod 600 {full})");
        }

        var length = RandomAccess.GetLength(file);
        return length <= Longest
            ? Encoding.UTF8.GetString(RegularFile.Read(file, full, Longest)).TrimStart('\uFEFF')
            : throw new InvalidDataException($"the key {full} has {length} bytes, and no key has more than {Longest}; {Make}");
    }
}
