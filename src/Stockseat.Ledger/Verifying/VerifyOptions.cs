using Stockseat.Ledger.Seals;

namespace Stockseat.Ledger.Verifying;

/// <summary>What a ledger is held against, and how it is read.</summary>
public sealed record VerifyOptions
{
    /// <summary>How many entries may stand after the newest seal, unless stated: twice what the service seals at once.</summary>
    public const long UsualTail = 2000;

    /// <summary>Heads that were kept outside the machine.</summary>
    public IReadOnlyList<Anchor> Anchors { get; init; } = [];

    /// <summary>The only keys that may have sealed; none: the ledger's own word for its keys is taken.</summary>
    public IReadOnlyList<PublicSealKey> Keys { get; init; } = [];

    /// <summary>Whether a ledger without seals, or with too much after the newest one, is not whole.</summary>
    public bool RequireSeal { get; init; }

    /// <summary>How many entries may stand after the newest seal.</summary>
    public long Tail { get; init; } = UsualTail;

    /// <summary>How many ranges are read at once, each on a connection of its own; the result is the same.</summary>
    public int Ranges { get; init; } = Environment.ProcessorCount;

    /// <summary>How many serials one read spans: a long one keeps the log from being copied into the database.</summary>
    public int Piece { get; init; } = 2000;

    /// <summary>Whether SQLite's own check of all pages runs too, in one long read: only where nobody writes.</summary>
    public bool Pages { get; init; }

    /// <summary>Takes how many entries were read and how many there are, from any thread, one call at a time.</summary>
    public Action<long, long>? Progress { get; init; }
}
