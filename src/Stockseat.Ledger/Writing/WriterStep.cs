using Stockseat.Ledger.Sessions;

namespace Stockseat.Ledger.Writing;

/// <summary>One thing that the writer does between two batches.</summary>
/// <param name="AfterABatch">Whether after a batch.</param>
/// <param name="WhileIdle">Whether when nothing was asked.</param>
/// <param name="Do">What it does.</param>
internal sealed record WriterStep(bool AfterABatch, bool WhileIdle, Action<LedgerSession> Do)
{
    /// <summary>Only after a batch.</summary>
    public static WriterStep Busy(Action<LedgerSession> doIt) => new(true, false, doIt);

    /// <summary>Only when nothing was asked.</summary>
    public static WriterStep Idle(Action<LedgerSession> doIt) => new(false, true, doIt);

    /// <summary>Each time.</summary>
    public static WriterStep Always(Action<LedgerSession> doIt) => new(true, true, doIt);

    /// <summary>Whether it is done now.</summary>
    public bool IsDue(bool idle) => idle ? WhileIdle : AfterABatch;
}
