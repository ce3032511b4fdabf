namespace Stockseat.Ledger.Store;

/// <summary>Which entries are wanted; null: all.</summary>
public sealed record EntryFilter(string? Fixture = null, string? Kind = null, string? Client = null, string? Tag = null)
{
    /// <summary>The cell of the client that asked.</summary>
    public string? Cell { get; init; }

    /// <summary>The lot of the stock.</summary>
    public string? Lot { get; init; }

    /// <summary>Not before this instant, by the instant of the entry.</summary>
    public DateTimeOffset? From { get; init; }

    /// <summary>Before this instant.</summary>
    public DateTimeOffset? To { get; init; }
}
