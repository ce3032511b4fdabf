namespace Stockseat.Ledger.Verifying;

/// <summary>A snapshot that does not follow from the entries before it.</summary>
/// <param name="Serial">The snapshot.</param>
/// <param name="After">The snapshot before it that counts; 0: none, it is by all from the first. A fault in between explains this one.</param>
/// <param name="Text">What it carries otherwise.</param>
internal sealed record SnapshotFault(long Serial, long After, string Text);
