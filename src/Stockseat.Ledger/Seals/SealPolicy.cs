namespace Stockseat.Ledger.Seals;

/// <summary>With which key, and when, the ledger is sealed.</summary>
/// <param name="Key">The key; the writer does not dispose it.</param>
/// <param name="Every">Seal after the batch that brings the number of unsealed entries to this.</param>
/// <param name="After">Seal after this long without a new entry, when there are unsealed entries.</param>
public sealed record SealPolicy(SealKey Key, int Every, TimeSpan After);
