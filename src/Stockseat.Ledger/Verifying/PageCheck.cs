using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace Stockseat.Ledger.Verifying;

/// <summary>
/// SQLite's own check of all pages. It finds damage that a walk does not see, since a walk uses no look-up and no index. It is one long read.
/// </summary>
internal static class PageCheck
{
    private const int Most = 100;
    private const int Interrupted = 9;

    /// <summary>Runs the check.</summary>
    /// <exception cref="OperationCanceledException">The token stopped it.</exception>
    public static void Run(SqliteConnection connection, FaultList faults, CancellationToken token)
    {
        using var stop = token.Register(() => raw.sqlite3_interrupt(connection.Handle!));
        try
        {
            using var command = connection.CreateCommand();
            command.CommandText = $"PRAGMA integrity_check({Most})";
            using var reader = command.ExecuteReader();
            while (reader.Read())
            {
                if (reader.GetString(0) is var line && line != "ok")
                {
                    faults.Add(0, line.Contains("index", StringComparison.Ordinal) ? FaultKinds.Index : FaultKinds.Damaged,
                        $"SQLite's check of the pages says: {line}");
                }
            }
        }
        catch (SqliteException e) when (e.SqliteErrorCode == Interrupted)
        {
            throw new OperationCanceledException(token);
        }
        catch (Exception e) when (LedgerVerifier.IsDamage(e))
        {
            faults.Add(0, FaultKinds.Damaged, $"SQLite's check of the pages ended: {e.Message}");
        }
    }
}
