using Microsoft.Data.Sqlite;

namespace Stockseat.Ledger.Store;

/// <summary>Reads request ids.</summary>
public static class RequestQueries
{
    /// <summary>For how many entries an id is remembered, also across restarts.</summary>
    public const int Remembered = 100_000;

    private const string FromBodies =
        "FROM entry WHERE serial > $above AND serial <= $upTo AND instr(body, '\"request\":\"') > 0"
        + " AND CASE WHEN json_valid(body) THEN json_type(body, '$.request') = 'text' END";

    /// <summary>The request ids above a serial, in order; from their table, in a ledger that has one.</summary>
    internal static IEnumerable<(string? Client, string Request, long Serial)> Of(SqliteConnection connection, long above, long upTo = long.MaxValue) =>
        LedgerTables.HasRequests(connection)
            ? Read(connection, "SELECT client, request, serial FROM request WHERE serial > $above AND serial <= $upTo ORDER BY serial", above, upTo)
            : InBodies(connection, above);

    /// <summary>The newest entry with a request id of a client, by the table; null when there is none, or no table.</summary>
    internal static long? Newest(SqliteConnection connection, string client, string request)
    {
        if (!LedgerTables.HasRequests(connection))
        {
            return null;
        }

        using var command = connection.CreateCommand();
        command.CommandText = "SELECT max(serial) FROM request WHERE request = $request AND client = $client";
        command.Parameters.AddWithValue("$request", request);
        command.Parameters.AddWithValue("$client", client);
        return command.ExecuteScalar() as long?;
    }

    /// <summary>
    /// The same from the bodies, which alone are authoritative. The first entry of a ledger and snapshots have no id of their own, but carry bodies that have.
    /// </summary>
    internal static IEnumerable<(string? Client, string Request, long Serial)> InBodies(SqliteConnection connection, long above) =>
        Read(connection, $"SELECT client, json_extract(body, '$.request'), serial {FromBodies} ORDER BY serial", above, long.MaxValue);

    /// <summary>Makes the table again from the bodies of the newest entries.</summary>
    /// <param name="connection">The ledger.</param>
    /// <param name="last">The last entry.</param>
    public static void MakeAnew(SqliteConnection connection, long last)
    {
        using var command = connection.CreateCommand();
        command.CommandText = $"DELETE FROM request; INSERT INTO request (serial, client, request) "
            + $"SELECT serial, client, json_extract(body, '$.request') {FromBodies}";
        command.Parameters.AddWithValue("$above", last - Remembered);
        command.Parameters.AddWithValue("$upTo", last);
        command.ExecuteNonQuery();
    }

    private static IEnumerable<(string? Client, string Request, long Serial)> Read(SqliteConnection connection, string sql, long above, long upTo)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.Parameters.AddWithValue("$above", above);
        command.Parameters.AddWithValue("$upTo", upTo);
        using var reader = command.ExecuteReader();
        while (reader.Read())
        {
            yield return (LedgerQueries.Text(reader, 0), reader.GetString(1), reader.GetInt64(2));
        }
    }
}
