namespace Stockseat.Ledger.Verifying;

/// <summary>One thing that is wrong, with its place.</summary>
/// <param name="Serial">The entry where it shows; 0: the file as a whole.</param>
/// <param name="Kind">What: one of <see cref="FaultKinds"/>.</param>
/// <param name="Text">In words.</param>
public sealed record LedgerFault(long Serial, string Kind, string Text);
