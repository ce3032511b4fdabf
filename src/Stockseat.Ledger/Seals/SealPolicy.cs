namespace Stockseat.Ledger.Seals;

/// <summary>With what and when the ledger is sealed.</summary>
/// <param name="Key">The key; the writer does not dispose it.</param>
/// <param name="Every">After the batch with which so many entries are unsealed.</param>
/// <param name="After">After so long without a new entry, when something is unsealed.</param>
public sealed record SealPolicy(SealKey Key, int Every, TimeSpan After);
