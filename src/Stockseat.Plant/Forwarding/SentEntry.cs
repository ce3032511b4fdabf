namespace Stockseat.Plant.Forwarding;

/// <summary>One row as it is sent: the bytes of the body exactly as the ledger has them.</summary>
internal sealed record SentEntry(
    long Serial, DateTime At, string? Cell, string Kind, string? Fixture, long? Revision, string? Client, string? Tag, byte[] Body, byte[] Hash);
