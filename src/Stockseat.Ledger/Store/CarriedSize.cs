using Microsoft.Data.Sqlite;

namespace Stockseat.Ledger.Store;

/// <summary>How much the next ledger would have to carry.</summary>
internal static class CarriedSize
{
    /// <summary>About how many bytes the next ledger would carry: nearly all of them are revisions.</summary>
    public static long Of(SqliteConnection connection)
    {
        using var command = connection.CreateCommand();
        command.CommandText =
            $"SELECT (SELECT coalesce(sum(octet_length(body)), 0) FROM entry WHERE {LedgerQueries.InStanding} AND kind = 'revision-adopted')"
            + " + coalesce((SELECT octet_length(body) FROM entry ORDER BY serial LIMIT 1), 0)";
        return (long)command.ExecuteScalar()!;
    }
}
