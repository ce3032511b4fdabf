namespace Stockseat.Ledger.Sessions;

/// <summary>What another program can do to the files of the open ledger.</summary>
internal enum Disturbance
{
    /// <summary>The name <c>ledger.db</c> is gone, or belongs to another file.</summary>
    Replaced,

    /// <summary>The content of <c>ledger.db</c> was changed, but not by SQLite.</summary>
    Overwritten,

    /// <summary>The log or its index lost its name. All of it is still in the open files.</summary>
    LogReplaced,

    /// <summary>Something was written through SQLite, or into the log.</summary>
    Written,

    /// <summary>The lock of the folder lost its name, so another service could take the folder too.</summary>
    LockReplaced,
}
