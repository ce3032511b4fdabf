using Microsoft.Data.Sqlite;
using Stockseat.Fixtures.Files;
using Stockseat.Ledger.Rolling;
using Stockseat.Ledger.Sessions;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Writing;

/// <summary>
/// Opens the ledger; and again after a failure, when it reads the head from the disk. What was acknowledged has to be there.
/// </summary>
/// <param name="folder">The data folder.</param>
/// <param name="time">The counter.</param>
/// <param name="toBeSealed">Whether the ledger is to be sealed.</param>
/// <param name="snapshots">Whether snapshots are written in it.</param>
/// <param name="alone">Whether the folder's lock is taken first, and held.</param>
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

    /// <summary>The first attempt; without a session, why there is none.</summary>
    /// <param name="rethrow">Whether what may pass is a failure too.</param>
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

    /// <summary>Goes on in the new ledger of one that has ended.</summary>
    public LedgerSession Reopen(LedgerSession ended)
    {
        ended.Dispose();
        return LedgerOpening.Open(folder, snapshots: snapshots, alone: _lock);
    }

    /// <summary>Throws a session away: nothing in memory is believed any more.</summary>
    public void Lose(LedgerSession? session, Exception cause)
    {
        _disturbed = cause as LedgerDisturbedException;
        _was = session is { HasEnded: false } ? session.File : null;
        session?.Discard(cause);
        if (_disturbed is { By: Disturbance.LockReplaced })
        {
            _lock?.Dispose();
            _lock = null; // It is taken again before the ledger is opened; when another service was quicker, this one ends.
        }
    }

    /// <summary>One attempt; null when it is not time for one, or it failed.</summary>
    /// <param name="committed">The last entry that was acknowledged.</param>
    /// <exception cref="InvalidDataException">That entry is no more there, or the ledger is another one.</exception>
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
            var found = $"entry {committed.Serial} was acknowledged and is no more in {Path.Combine(folder, LedgerFile.Name)}";
            throw LostLedger.Leave(folder, found, committed.Serial);
        }

        return session;
    }

    /// <summary>Gives the folder's lock back.</summary>
    public void Dispose() => _lock?.Dispose();

    /// <summary>Why the ledger there is not the one that was written; null: it is. Another one is not even opened: the log beside it is not its own.</summary>
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
            return (null, e); // A ledger that was open once is the right one: whatever it is, it is tried again.
        }
    }
}
