using BenchmarkDotNet.Attributes;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.State;
using Stockseat.Answers.Verbs;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Benchmarks;

/// <summary>
/// A locate decided, with its uncertainty at the origin and at the worst of 24 nests; compared with the same where no uncertainty is stated.
/// </summary>
[MemoryDiagnoser]
public class DecisionBenchmarks
{
    private static readonly DateTimeOffset At = new(2026, 11, 25, 8, 0, 0, TimeSpan.Zero);

    private LocateAsk _ask = null!;
    private Situation _unknown = null!;
    private Situation _known = null!;

    [GlobalSetup]
    public void Setup()
    {
        _ask = new(new("bench", null, "127.0.0.1:4000"), "pinbed-1") { DiameterMetres = 0.0924 };
        (_unknown, _known) = (Serving(Bed.Folder(2), 2), Serving(Bed.Folder(3), 3));
    }

    [Benchmark(Baseline = true)]
    public EntryBody Unknown() => Decision.Decide(_ask, _unknown, At, _ => null);

    [Benchmark]
    public EntryBody Known() => Decision.Decide(_ask, _known, At, _ => null);

    private static Situation Serving(FixtureFolder folder, int number)
    {
        var situation = Situation.Empty.WithFolders([folder]);
        var adopted = Decision.Decide(
            new AdoptAsk(new("bench", null, ""), "pinbed-1", number) { By = "b", Why = "w", Folder = folder }, situation, At, _ => null);
        adopted.Serial = 1;
        adopted.At = EntryTime.Text(At);
        return situation.Apply(adopted);
    }
}
