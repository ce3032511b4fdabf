using Microsoft.Data.Sqlite;
using Stockseat.Ledger.Queries;
using Stockseat.Ledger.Verifying;
using Stockseat.Ledger.Writing;

namespace Stockseat.Ledger.Copying;

/// <summary>
/// Copies a ledger that is running or stopped. Entries never change, so a copy up to the last one that there was at the beginning is of one moment, though it is
/// read in short pieces: nothing waits for it, the log can be copied into the database meanwhile, and it never begins again, as a copy of pages would at each
/// commit.
/// </summary>
public static class LedgerCopy
{
    private const int Piece = 2000;

    /// <summary>Copies the ledger of a folder into another folder, and verifies the copy.</summary>
    /// <param name="from">The data folder.</param>
    /// <param name="to">The folder that gets the copy; made when it is not there.</param>
    /// <param name="told">Told how many entries there are, and the last serial.</param>
    /// <param name="token">Stops it between two pieces; nothing is left then.</param>
    /// <exception cref="IOException">There is a ledger in that folder.</exception>
    public static Verification Make(string from, string to, Action<long, long> told, CancellationToken token)
    {
        using var source = LedgerFile.OpenReader(from);
        Directory.CreateDirectory(to);
        var path = Path.Combine(to, LedgerFile.Name);
        Free(path);
        var half = $"{path}.{Guid.NewGuid():N}.part";
        try
        {
            Fill(source, half, told, token);
            var verified = Verify(half, token);
            Free(path);
            File.Move(half, path, overwrite: false);
            DirectorySync.Sync(to);
            return verified;
        }
        finally
        {
            File.Delete(half);
            File.Delete($"{half}-journal");
        }
    }

    private static void Free(string path)
    {
        if (Path.Exists(path))
        {
            throw new IOException($"{path} is there already and is not written over; name another folder");
        }
    }

    private static void Fill(SqliteConnection source, string path, Action<long, long> told, CancellationToken token)
    {
        using var target = LedgerFile.Make(path);
        using var insert = new RowInsert(target);
        var last = LedgerQueries.Last(source);
        var (entries, above) = (0L, long.MinValue);
        while (LedgerQueries.After(source, above, Piece, upTo: last) is { Count: > 0 } rows)
        {
            token.ThrowIfCancellationRequested();
            LedgerFile.Execute(target, "BEGIN");
            rows.ForEach(insert.Run);
            LedgerFile.Execute(target, "COMMIT");
            (entries, above) = (entries + rows.Count, rows[^1].Serial);
            told(entries, above);
        }
    }

    private static Verification Verify(string path, CancellationToken token)
    {
        using var copy = LedgerFile.OpenFile(path);
        return LedgerVerifier.Verify(copy, token);
    }
}
