using Stockseat.Answers.Explaining;

namespace Stockseat.Ledger.Replaying;

/// <summary>Computes entries again from their recorded inputs, by the code that serves, and compares what comes out with what is recorded.</summary>
public static class LedgerReplay
{
    /// <summary>How many differences are listed.</summary>
    public const int MostDifferences = 1000;

    /// <summary>By how much a number of an entry of another version of the program may differ: this part of it, or so many metres.</summary>
    public const double Tolerance = 1e-12;

    /// <summary>Replays the ledger in a folder, running or stopped, and those before it that were closed and are still there.</summary>
    /// <param name="folder">The data folder.</param>
    /// <param name="options">What of it.</param>
    /// <param name="token">Stops it soon.</param>
    public static ReplayResult Run(string folder, ReplayOptions options, CancellationToken token) => new(options.From, options.Until ?? 0, 0, 0, 0, 0, 0, 0, [], 0, null); // TEMPORARY

    /// <summary>Replays one entry, with every intermediate value.</summary>
    /// <param name="folder">The data folder.</param>
    /// <param name="serial">The entry.</param>
    /// <returns>What came out, and the working; null when there is no such entry.</returns>
    public static (ReplayResult Result, Working Working)? One(string folder, long serial) => throw new NotImplementedException();
}
