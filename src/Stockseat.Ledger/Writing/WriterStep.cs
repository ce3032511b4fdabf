using Stockseat.Ledger.Sessions;

namespace Stockseat.Ledger.Writing;

/// <summary>One thing that the writer does between two batches.</summary>
/// <param name="AfterABatch">Whether it is done after a batch.</param>
/// <param name="WhileIdle">Whether it is done while no asks come.</param>
/// <param name="Do">The action.</param>
internal sealed record WriterStep(bool AfterABatch, bool WhileIdle, Action<LedgerSession> Do)
{
    /// <summary>Done only after a batch.</summary>
    public static WriterStep Busy(Action<LedgerSession> doIt) => new(true, false, doIt);

    /// <summary>Done only while no asks come.</summary>
    public static WriterStep Idle(Action<LedgerSession> doIt) => new(false, true, doIt);

    /// <summary>Done each time.</summary>
    public static WriterStep Always(Action<LedgerSession> doIt) => new(true, true, doIt);

    /// <summary>Whether it is done now.</summary>
    public bool IsDue(bool idle) => idle ? WhileIdle : AfterABatch;
}
