namespace Stockseat.Ledger.Sessions;

/// <summary>Another program did something to the files of the open ledger. Nothing is acknowledged into it any more.</summary>
/// <param name="by">What was done.</param>
/// <param name="message">The same in words, with what to do.</param>
internal sealed class LedgerDisturbedException(Disturbance by, string message) : IOException(message)
{
    /// <summary>What was done.</summary>
    public Disturbance By { get; } = by;
}
