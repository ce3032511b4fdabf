namespace Stockseat.Audit.Replaying;

/// <summary>What is replayed, and how it is read.</summary>
public sealed record ReplayOptions
{
    /// <summary>The first serial; when it is lower, the first one in the ledger.</summary>
    public long From { get; init; } = 1;

    /// <summary>The last serial; null: the last one in the ledger.</summary>
    public long? Until { get; init; }

    /// <summary>How many ranges are replayed at once, each on a connection of its own; the result is the same.</summary>
    public int Ranges { get; init; } = Environment.ProcessorCount;

    /// <summary>How many entries one read takes: a long read keeps the write-ahead log from being copied into the database.</summary>
    public int Piece { get; init; } = 2000;

    /// <summary>Takes how many entries were replayed and how many there are, from any thread, one call at a time.</summary>
    public Action<long, long>? Progress { get; init; }
}
