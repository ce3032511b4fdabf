using Stockseat.Ledger.Store;

namespace Stockseat.Cli.Client;

/// <summary>Which entries a command reads, in the order of their serials.</summary>
/// <param name="After">Above this serial.</param>
/// <param name="Until">The last serial that is wanted; null: the last there is.</param>
/// <param name="Filter">Which of them.</param>
internal sealed record EntryRange(long After, long? Until, EntryFilter Filter);
