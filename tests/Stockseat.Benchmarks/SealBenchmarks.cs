using System.Security.Cryptography;
using BenchmarkDotNet.Attributes;
using Stockseat.Answers.Records;
using Stockseat.Ledger.Chain;
using Stockseat.Ledger.Seals;

namespace Stockseat.Benchmarks;

/// <summary>A seal, which is made once in many entries, and what each batch pays so that it comes when it is due.</summary>
[MemoryDiagnoser]
public class SealBenchmarks : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("stockseat-seal-").FullName;
    private readonly DateTimeOffset _at = DateTimeOffset.UnixEpoch;
    private readonly byte[] _head = ChainHash.Start;
    private readonly SealKey _key;
    private readonly ECDsa _plain = ECDsa.Create(ECCurve.NamedCurves.nistP256);
    private long _wrote;

    public SealBenchmarks()
    {
        var path = Path.Combine(_folder, "seal.pem");
        File.WriteAllText(path, _plain.ExportPkcs8PrivateKeyPem());
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(path, UnixFileMode.UserRead | UnixFileMode.UserWrite);
        }

        _key = SealKey.Load(path, Path.Combine(_folder, "data"));
    }

    [Benchmark(Baseline = true)]
    public byte[] SignedBare() => _plain.SignData(_head, HashAlgorithmName.SHA256, DSASignatureFormat.Rfc3279DerSequence);

    [Benchmark]
    public SealBody Sealed() => _key.Seal("8a7a7c1e-7a53-4f52-bf3b-0b2d7c1f0e11", 4711, _head, _at, null);

    /// <summary>The two looks at the counter of a batch.</summary>
    [Benchmark]
    public TimeSpan Looked()
    {
        var elapsed = TimeProvider.System.GetElapsedTime(_wrote);
        _wrote = TimeProvider.System.GetTimestamp();
        return elapsed;
    }

    public void Dispose()
    {
        _key.Dispose();
        _plain.Dispose();
        Directory.Delete(_folder, recursive: true);
    }
}
