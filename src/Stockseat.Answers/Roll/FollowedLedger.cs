namespace Stockseat.Answers.Roll;

/// <summary>The ledger that a ledger continues.</summary>
public sealed record FollowedLedger
{
    /// <summary>Its id; absent when its first entry has none.</summary>
    public string? Ledger { get; init; }

    /// <summary>Its last entry, which records that it rolled over.</summary>
    public required long Last { get; init; }

    /// <summary>The hash of that entry, in lower-case hexadecimal.</summary>
    public required string Hash { get; init; }
}
