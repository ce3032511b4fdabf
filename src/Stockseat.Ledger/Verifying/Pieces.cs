using Microsoft.Data.Sqlite;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Verifying;

/// <summary>Hands out the pieces of a ledger in order. Each piece begins at a row that exists, so a wide gap makes no pieces.</summary>
internal sealed class Pieces(SqliteConnection connection, long first, long head, int length)
{
    private readonly Lock _lock = new();
    private long? _from = first;
    private long _number;

    /// <summary>The next piece; null after the last one.</summary>
    public (long Number, long From, long To)? Next()
    {
        lock (_lock)
        {
            if (_from is not { } from)
            {
                return null;
            }

            var to = End(from > head - length ? head : from + length - 1);
            using var command = connection.CreateCommand();
            command.CommandText = "SELECT min(serial) FROM entry WHERE serial > $to AND serial <= $head";
            command.Parameters.AddWithValue("$to", to);
            command.Parameters.AddWithValue("$head", head);
            _from = command.ExecuteScalar() as long?;
            return (_number++, from, to);
        }
    }

    /// <summary>A piece ends at the next snapshot, if that is not far: the situation is then known where the next piece begins.</summary>
    private long End(long to)
    {
        using var command = connection.CreateCommand();
        command.CommandText = $"SELECT min(serial) FROM entry WHERE {LedgerQueries.InStanding} AND fixture IS NULL AND kind = 'snapshot'"
            + " AND serial >= $to AND serial <= $last";
        command.Parameters.AddWithValue("$to", to);
        command.Parameters.AddWithValue("$last", to > head - length ? head : to + length);
        return command.ExecuteScalar() as long? ?? to;
    }
}
