namespace Stockseat.Ledger.Writing;

/// <summary>The last entry: its serial and its hash.</summary>
internal readonly record struct Head(long Serial, byte[] Hash);
