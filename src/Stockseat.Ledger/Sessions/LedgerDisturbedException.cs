namespace Stockseat.Ledger.Sessions;

/// <summary>Another program did something to the files of the open ledger. No entry is acknowledged into it any more.</summary>
/// <param name="by">What the other program did.</param>
/// <param name="message">The same in words, with what to do.</param>
internal sealed class LedgerDisturbedException(Disturbance by, string message) : IOException(message)
{
    /// <summary>What the other program did.</summary>
    public Disturbance By { get; } = by;
}
