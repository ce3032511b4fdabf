using Microsoft.Data.Sqlite;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Verifying;

namespace Stockseat.Audit.Copying;

/// <summary>
/// Copies a ledger while its service runs or is stopped. Entries never change, so a copy up to the last entry at the beginning shows one moment, although it is
/// read in short pieces. So nothing waits for the copy, the write-ahead log can be copied into the database meanwhile, and the copy never has to begin again,
/// as a copy of pages would at each commit.
/// </summary>
public static class LedgerCopy
{
    private const int Piece = 2000;

    /// <summary>Copies the ledger of a folder into another folder, and verifies the copy.</summary>
    /// <param name="from">The data folder.</param>
    /// <param name="to">The folder for the copy; it is made when it does not exist.</param>
    /// <param name="told">Takes the number of entries so far, and the last serial.</param>
    /// <param name="token">Stops it between two pieces; then no copy is left.</param>
    /// <exception cref="IOException">The folder has a ledger already.</exception>
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
            throw new IOException($"{path} exists already and is never overwritten; name another folder");
        }
    }

    private static void Fill(SqliteConnection source, string path, Action<long, long> told, CancellationToken token)
    {
        using var target = LedgerFile.Make(path, LedgerTables.VersionOf(source)); // The copy can be continued as the original could.
        using var insert = new RowInsert(target);
        var last = LedgerQueries.Last(source);
        var (entries, above) = (0L, long.MinValue);
        for (var more = true; more;)
        {
            token.ThrowIfCancellationRequested();
            LedgerFile.Execute(target, "BEGIN");
            var before = entries;
            foreach (var serial in Rows(source, above, last, insert))
            {
                (entries, above) = (entries + 1, serial);
            }

            LedgerFile.Execute(target, "COMMIT");
            if (more = entries > before)
            {
                told(entries, above);
            }
        }

        if (LedgerTables.HasRequests(target))
        {
            RequestQueries.MakeAnew(target, last); // The file's own value in a running ledger does not belong to one moment.
        }
    }

    /// <summary>Copies a piece, row by row and unchanged, also rows that can't be read; the serials.</summary>
    private static IEnumerable<long> Rows(SqliteConnection source, long above, long last, RowInsert insert)
    {
        using var command = source.CreateCommand();
        command.CommandText =
            "SELECT serial, at, kind, fixture, revision, client, tag, body, hash FROM entry WHERE serial > $above AND serial <= $last ORDER BY serial "
                + "LIMIT $count";
        command.Parameters.AddWithValue("$above", above);
        command.Parameters.AddWithValue("$last", last);
        command.Parameters.AddWithValue("$count", Piece);
        using var reader = command.ExecuteReader();
        while (reader.Read())
        {
            insert.Run(reader);
            yield return reader.GetInt64(0);
        }
    }

    private static Verification Verify(string path, CancellationToken token)
    {
        using var copy = LedgerFile.OpenFile(path);
        return LedgerVerifier.Verify(copy, token);
    }
}
