using System.Security.Cryptography;
using Stockseat.Answers.Records;

namespace Stockseat.Ledger.Seals;

/// <summary>The key that seals the ledger, from a file outside the data folder.</summary>
public sealed class SealKey : IDisposable
{
    private const UnixFileMode Others =
        UnixFileMode.GroupRead | UnixFileMode.GroupWrite | UnixFileMode.GroupExecute | UnixFileMode.OtherRead | UnixFileMode.OtherWrite | UnixFileMode.OtherExecute;

    private readonly ECDsa _key;

    private SealKey(ECDsa key) => (_key, Public) = (key, PublicSealKey.FromPem(key.ExportSubjectPublicKeyInfoPem())!);

    /// <summary>The half that checks.</summary>
    public PublicSealKey Public { get; }

    /// <summary>Reads a private key on P-256 from PEM.</summary>
    /// <param name="path">The file.</param>
    /// <param name="data">The data folder, which it must not lie in.</param>
    /// <exception cref="InvalidDataException">Why it can't be used, and what to do.</exception>
    public static SealKey Load(string path, string data)
    {
        var full = Path.GetFullPath(path);
        if (full.StartsWith(Path.GetFullPath(data).TrimEnd(Path.DirectorySeparatorChar) + Path.DirectorySeparatorChar, StringComparison.Ordinal))
        {
            throw new InvalidDataException($"the key {full} lies in the data folder: whoever copies the ledger would have it; put it elsewhere");
        }

        if (!OperatingSystem.IsWindows() && File.Exists(full) && (File.GetUnixFileMode(full) & Others) != 0)
        {
            throw new InvalidDataException($"the key {full} can be read or changed by others; take their rights away (chmod 600)");
        }

        var key = ECDsa.Create();
        try
        {
            key.ImportFromPem(File.ReadAllText(full));
            if (key.ExportParameters(true).Curve.Oid.Value == ECCurve.NamedCurves.nistP256.Oid.Value)
            {
                return new(key);
            }

            key.Dispose();
            throw new InvalidDataException($"the key {full} is not on the curve P-256; make one as the README shows");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or CryptographicException or ArgumentException)
        {
            key.Dispose();
            throw new InvalidDataException($"the key {full} can't be read as a private key in PEM without a password: {e.Message.TrimEnd('.')}; make one as the README shows");
        }
    }

    /// <summary>The body of a seal; its serial and instant are given by the writer, and the instant is signed.</summary>
    /// <param name="ledger">The ledger's id.</param>
    /// <param name="serial">The last entry, which it covers.</param>
    /// <param name="hash">That entry's hash.</param>
    /// <param name="at">The instant that the seal's entry will have.</param>
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
}
