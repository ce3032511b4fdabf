namespace Stockseat.Ledger.Store;

/// <summary>The last entry: its serial and its hash.</summary>
internal readonly record struct Head(long Serial, byte[] Hash);
