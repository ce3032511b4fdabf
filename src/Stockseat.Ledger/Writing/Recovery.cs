using Microsoft.Data.Sqlite;
using Stockseat.Fixtures.Files;
using Stockseat.Ledger.Rolling;
using Stockseat.Ledger.Sessions;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Writing;

/// <summary>
/// Opens the ledger, and opens it again after a failure; then it reads the last entry from the disk. Every acknowledged entry has to be there.
/// </summary>
/// <param name="folder">The data folder.</param>
/// <param name="time">The clock's counter.</param>
/// <param name="toBeSealed">Whether the ledger will be sealed.</param>
/// <param name="snapshots">Whether snapshots will be written in it.</param>
/// <param name="alone">Whether to take the lock of the folder first, and to hold it.</param>
internal sealed class Recovery(string folder, TimeProvider time, bool toBeSealed, bool snapshots, bool alone) : IDisposable
{
    /// <summary>How long it waits between two attempts.</summary>
    public static readonly TimeSpan RetryAfter = TimeSpan.FromMilliseconds(250);

    private FolderLock? _lock;
    private bool _opened;
    private long _tried;

    /// <summary>The file that was written last; null: not known, or a roll may have put a new one there.</summary>
    private FileFacts? _was;
    private LedgerDisturbedException? _disturbed;

    /// <summary>The first attempt; when there is no session, the reason why.</summary>
    /// <param name="rethrow">Whether a failure that may go away by itself is thrown too.</param>
    public (LedgerSession? Session, Exception? Cause) Begin(bool rethrow)
    {
        try
        {
            _tried = time.GetTimestamp();
            return Attempt(afterFailure: false) is var opened && rethrow && opened.Cause is { } cause ? throw cause : opened;
        }
        catch
        {
            Dispose();
            throw;
        }
    }

    /// <summary>Continues in the new ledger after one has ended.</summary>
    public LedgerSession Reopen(LedgerSession ended)
    {
        ended.Dispose();
        return LedgerOpening.Open(folder, snapshots: snapshots, alone: _lock);
    }

    /// <summary>Throws a session away: nothing that is in memory is trusted any more.</summary>
    public void Lose(LedgerSession? session, Exception cause)
    {
        _disturbed = cause as LedgerDisturbedException;
        _was = session is { HasEnded: false } ? session.File : null;
        session?.Discard(cause);
        if (_disturbed is { By: Disturbance.LockReplaced })
        {
            _lock?.Dispose();
            _lock = null; // The lock is taken again before the ledger is opened; when another service was quicker, this one ends.
        }
    }

    /// <summary>One attempt; null when it is not time for one, or when it failed.</summary>
    /// <param name="committed">The last entry that was acknowledged.</param>
    /// <exception cref="InvalidDataException">That entry is no longer there, or the ledger is another one.</exception>
    public LedgerSession? Try(Head committed)
    {
        if (time.GetElapsedTime(_tried) < RetryAfter)
        {
            return null;
        }

        _tried = time.GetTimestamp();
        if (committed.Serial > 0 && Replaced() is { } how)
        {
            throw LostLedger.Leave(folder, how, committed.Serial);
        }

        var session = Attempt(afterFailure: _disturbed is null).Session;
        if (session is not null && committed.Serial > 0 && session.HashOf(committed.Serial)?.AsSpan().SequenceEqual(committed.Hash) != true)
        {
            session.Dispose();
            var found = $"entry {committed.Serial} was acknowledged, but is no longer in {Path.Combine(folder, LedgerFile.Name)}";
            throw LostLedger.Leave(folder, found, committed.Serial);
        }

        return session;
    }

    /// <summary>Releases the lock of the folder.</summary>
    public void Dispose() => _lock?.Dispose();

    /// <summary>
    /// Why the ledger there is not the one that was written; null: it is the same. Another ledger is not even opened: the log beside it does not belong to it.
    /// </summary>
    private string? Replaced()
    {
        if (_disturbed is { By: Disturbance.Overwritten } overwritten)
        {
            return overwritten.Message;
        }

        var path = Path.Combine(folder, LedgerFile.Name);
        return _was is not { } was ? null
            : FileFacts.Of(path) is not { } now ? $"{path} was removed or renamed while the service wrote it"
            : now.SameFile(was) ? null : $"{path} was replaced by another file while the service wrote it";
    }

    private (LedgerSession? Session, Exception? Cause) Attempt(bool afterFailure)
    {
        try
        {
            _lock ??= alone ? FolderLock.Take(folder) : null;
        }
        catch (IOException e) when (OpenFailure.IsOfTheDisk(e))
        {
            return (null, e);
        }

        try
        {
            var session = LedgerOpening.Open(folder, afterFailure, toBeSealed, snapshots, _lock);
            _opened = true;
            return (session, null);
        }
        catch (Exception e) when (_opened ? e is SqliteException or IOException or UnauthorizedAccessException : OpenFailure.MayPass(e, folder))
        {
            return (null, e); // A ledger that was open once is the right one: whatever the failure, it is tried again.
        }
    }
}
