using Microsoft.Data.Sqlite;

namespace Stockseat.Ledger.Writing;

/// <summary>Opens the ledger again after a failure, and reads the head from the disk. What was acknowledged has to be there.</summary>
internal sealed class Recovery(string folder, TimeProvider time)
{
    /// <summary>How long it waits between two attempts.</summary>
    public static readonly TimeSpan RetryAfter = TimeSpan.FromMilliseconds(250);

    private long _tried;

    /// <summary>One attempt; null when it is not time for one, or it failed.</summary>
    /// <param name="committed">The last entry that was acknowledged.</param>
    /// <exception cref="InvalidDataException">That entry is no more there.</exception>
    public LedgerSession? Try(Head committed)
    {
        if (time.GetElapsedTime(_tried) < RetryAfter)
        {
            return null;
        }

        LedgerSession session;
        try
        {
            _tried = time.GetTimestamp();
            session = LedgerSession.Open(folder, afterFailure: true);
        }
        catch (Exception e) when (e is SqliteException or IOException or UnauthorizedAccessException)
        {
            return null;
        }

        if (committed.Serial > 0 && session.HashOf(committed.Serial)?.AsSpan().SequenceEqual(committed.Hash) != true)
        {
            session.Dispose();
            throw new InvalidDataException($"entry {committed.Serial} was acknowledged and is no more on the disk; the service ends: verify the ledger before it is started again");
        }

        return session;
    }
}
