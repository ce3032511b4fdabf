using System.Security.Cryptography;
using Stockseat.Ledger.Seals;

namespace Stockseat.Ledger.Tests.Support;

/// <summary>A folder with a key file for one test.</summary>
internal sealed class KeyFile : IDisposable
{
    private readonly List<SealKey> _loaded = [];

    public string Folder { get; } = Directory.CreateTempSubdirectory("stockseat-key-").FullName;

    public string Path => System.IO.Path.Combine(Folder, "seal.pem");

    public string Data => System.IO.Path.Combine(Folder, "data");

    /// <summary>A new private key, in PEM.</summary>
    public static string New(ECCurve? curve = null)
    {
        using var key = ECDsa.Create(curve ?? ECCurve.NamedCurves.nistP256);
        return key.ExportPkcs8PrivateKeyPem();
    }

    /// <summary>Writes a key that only its owner may read.</summary>
    public KeyFile Write(string? pem = null, string? path = null)
    {
        path ??= Path;
        Directory.CreateDirectory(System.IO.Path.GetDirectoryName(path)!);
        File.WriteAllText(path, pem ?? New());
        Mode(UnixFileMode.UserRead | UnixFileMode.UserWrite, path);
        return this;
    }

    public void Mode(UnixFileMode mode, string? path = null)
    {
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(path ?? Path, mode);
        }
    }

    public SealKey Load()
    {
        _loaded.Add(SealKey.Load(Path, Data));
        return _loaded[^1];
    }

    /// <summary>Why the key can't be used.</summary>
    public string Fault(string? path = null) => Assert.Throws<InvalidDataException>(() => SealKey.Load(path ?? Path, Data)).Message;

    public void Dispose()
    {
        _loaded.ForEach(k => k.Dispose());
        Directory.Delete(Folder, recursive: true);
    }
}
