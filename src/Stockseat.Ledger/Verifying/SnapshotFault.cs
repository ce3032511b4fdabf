namespace Stockseat.Ledger.Verifying;

/// <summary>A snapshot that does not follow from the entries before it.</summary>
/// <param name="Serial">The serial of the snapshot.</param>
/// <param name="After">The snapshot before it from which it follows; 0: there is none, and it follows from all entries. A fault in between explains this
/// one.</param>
/// <param name="Text">How it differs.</param>
internal sealed record SnapshotFault(long Serial, long After, string Text);
