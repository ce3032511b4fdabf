namespace Stockseat.Ledger.Verifying;

/// <summary>One fault, with its place.</summary>
/// <param name="Serial">The entry where it shows; 0: the whole file.</param>
/// <param name="Kind">One of <see cref="FaultKinds"/>.</param>
/// <param name="Text">The fault in words.</param>
public sealed record LedgerFault(long Serial, string Kind, string Text);
