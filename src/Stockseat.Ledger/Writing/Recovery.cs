using Microsoft.Data.Sqlite;

namespace Stockseat.Ledger.Writing;

/// <summary>
/// Opens the ledger; and again after a failure, when it reads the head from the disk. What was acknowledged has to be there.
/// </summary>
/// <param name="folder">The data folder.</param>
/// <param name="time">The counter.</param>
/// <param name="toBeSealed">Whether the ledger is to be sealed.</param>
/// <param name="alone">Whether the folder's lock is taken first, and held.</param>
internal sealed class Recovery(string folder, TimeProvider time, bool toBeSealed, bool alone) : IDisposable
{
    /// <summary>How long it waits between two attempts.</summary>
    public static readonly TimeSpan RetryAfter = TimeSpan.FromMilliseconds(250);

    private FolderLock? _lock;
    private bool _opened;
    private long _tried;

    /// <summary>The first attempt; without a session, why there is none.</summary>
    /// <param name="rethrow">Whether what may pass is a failure too.</param>
    public (LedgerSession? Session, Exception? Cause) Begin(bool rethrow)
    {
        try
        {
            _tried = time.GetTimestamp();
            return Open(afterFailure: false) is var opened && rethrow && opened.Cause is { } cause ? throw cause : opened;
        }
        catch
        {
            Dispose();
            throw;
        }
    }

    /// <summary>One attempt; null when it is not time for one, or it failed.</summary>
    /// <param name="committed">The last entry that was acknowledged.</param>
    /// <exception cref="InvalidDataException">That entry is no more there.</exception>
    public LedgerSession? Try(Head committed)
    {
        if (time.GetElapsedTime(_tried) < RetryAfter)
        {
            return null;
        }

        _tried = time.GetTimestamp();
        var session = Open(afterFailure: true).Session;
        if (session is not null && committed.Serial > 0 && session.HashOf(committed.Serial)?.AsSpan().SequenceEqual(committed.Hash) != true)
        {
            session.Dispose();
            throw new InvalidDataException($"entry {committed.Serial} was acknowledged and is no more on the disk; the service ends: verify the ledger before it is started again");
        }

        return session;
    }

    /// <summary>Gives the folder's lock back.</summary>
    public void Dispose() => _lock?.Dispose();

    private (LedgerSession? Session, Exception? Cause) Open(bool afterFailure)
    {
        try
        {
            _lock ??= alone ? FolderLock.Take(folder) : null;
        }
        catch (IOException e) when (Passing.IsOfTheDisk(e))
        {
            return (null, e);
        }

        try
        {
            var session = LedgerSession.Open(folder, afterFailure, toBeSealed);
            _opened = true;
            return (session, null);
        }
        catch (Exception e) when (_opened ? e is SqliteException or IOException or UnauthorizedAccessException : Passing.MayPass(e, folder))
        {
            return (null, e); // A ledger that was open once is the right one: whatever it is, it is tried again.
        }
    }
}
