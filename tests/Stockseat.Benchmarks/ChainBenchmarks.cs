using System.Security.Cryptography;
using BenchmarkDotNet.Attributes;
using Stockseat.Ledger.Store;

namespace Stockseat.Benchmarks;

/// <summary>The hash that chains an entry to the one before.</summary>
[MemoryDiagnoser]
public class ChainBenchmarks
{
    private const int BodyBytes = 700;

    private readonly byte[] _previous = ChainHash.Start;
    private readonly byte[] _body = new byte[BodyBytes];

    [Benchmark(Baseline = true)]
    public byte[] Sha256() => SHA256.HashData(_body);

    [Benchmark]
    public byte[] Chained() => ChainHash.Of(_previous, _body);
}
