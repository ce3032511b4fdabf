using Stockseat.Ledger.Seals;

namespace Stockseat.Ledger.Verifying;

/// <summary>What a ledger is checked against, and how it is read.</summary>
public sealed record VerifyOptions
{
    /// <summary>How many entries may come after the newest seal, unless stated: twice the number that the service seals at once.</summary>
    public const long UsualTail = 2000;

    /// <summary>Anchors that were kept outside the machine.</summary>
    public IReadOnlyList<Anchor> Anchors { get; init; } = [];

    /// <summary>The only keys that may have sealed; empty: the keys that the ledger itself names are trusted.</summary>
    public IReadOnlyList<PublicSealKey> Keys { get; init; } = [];

    /// <summary>Whether a ledger without seals, or with too many entries after the newest one, counts as not intact.</summary>
    public bool RequireSeal { get; init; }

    /// <summary>How many entries may come after the newest seal.</summary>
    public long Tail { get; init; } = UsualTail;

    /// <summary>How many ranges are read at once, each on its own connection; the result is the same.</summary>
    public int Ranges { get; init; } = Environment.ProcessorCount;

    /// <summary>How many serials one read covers: a long read keeps the log from being copied into the database.</summary>
    public int Piece { get; init; } = 2000;

    /// <summary>Whether SQLite's own check of all pages runs too, as one long read: only where nobody writes.</summary>
    public bool Pages { get; init; }

    /// <summary>Called with how many entries were read and how many there are; from any thread, but one call at a time.</summary>
    public Action<long, long>? Progress { get; init; }
}
