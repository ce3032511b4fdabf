using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Verifying;

/// <summary>The result of the walk over one piece.</summary>
internal sealed class WalkResult
{
    public long Entries { get; set; }

    /// <summary>The entry before the piece, as the walk found it.</summary>
    public long Before { get; init; }

    public long LastSerial { get; set; }

    public byte[] LastHash { get; set; } = ChainHash.Start;

    public string? Ledger { get; set; }

    public string? Unreadable { get; set; }

    public FaultList Faults { get; } = new();

    public List<SealSeen> Seals { get; } = [];

    /// <summary>The snapshots that do not follow from the entries before them.</summary>
    public List<SnapshotFault> Snapshots { get; } = [];

    /// <summary>How many rows belong in the index that leaves answers and refusals out.</summary>
    public long Standing { get; set; }

    /// <summary>How many rows belong in the index of refused pushes.</summary>
    public long RefusedPushes { get; set; }

    /// <summary>Whether rows are missing.</summary>
    public bool Gaps { get; set; }

    /// <summary>Why the file can't be read after <see cref="LastSerial"/>; null when it can.</summary>
    public string? Damage { get; set; }
}
