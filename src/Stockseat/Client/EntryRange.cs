using Stockseat.Ledger.Store;

namespace Stockseat.Cli.Client;

/// <summary>Which entries a command reads, in the order of their serials.</summary>
/// <param name="After">Only serials above this one.</param>
/// <param name="Until">The last serial wanted; null: up to the newest entry.</param>
/// <param name="Filter">Which of them.</param>
internal sealed record EntryRange(long After, long? Until, EntryFilter Filter);
