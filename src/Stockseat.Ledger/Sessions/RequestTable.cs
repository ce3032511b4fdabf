using System.Text;
using Microsoft.Data.Sqlite;
using SQLitePCL;
using Stockseat.Answers.Entries;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Sessions;

/// <summary>
/// The table of request ids, written in the transaction of their entries. Only the bodies are authoritative: when the two do not agree, the table is made again
/// from the bodies.
/// </summary>
internal sealed class RequestTable : IDisposable
{
    /// <summary>With how many of the newest entries the table is compared before it is trusted.</summary>
    private const int Compared = 1000;

    /// <summary>How many more ids are kept than needed, for a check that runs beside the writer.</summary>
    private const int Margin = 10_000;

    private readonly SqliteConnection _connection;
    private readonly sqlite3 _database;
    private readonly sqlite3_stmt _insert;

    private RequestTable(SqliteConnection connection)
    {
        (_connection, _database) = (connection, connection.Handle!);
        Check(raw.sqlite3_prepare_v3(
            _database, "INSERT OR REPLACE INTO request (serial, client, request) VALUES (?, ?, ?)", raw.SQLITE_PREPARE_PERSISTENT, out _insert));
    }

    /// <summary>The table of a ledger; null when its version has none.</summary>
    public static RequestTable? Of(SqliteConnection connection) => LedgerTables.HasRequests(connection) ? new(connection) : null;

    /// <summary>Adds the id of an entry, if it has one.</summary>
    public void Add(EntryBody body)
    {
        if (body.Request is not { } request)
        {
            return;
        }

        Check(raw.sqlite3_bind_int64(_insert, 1, body.Serial));
        Check(body.Client is { } client ? raw.sqlite3_bind_text(_insert, 2, Encoding.UTF8.GetBytes(client)) : raw.sqlite3_bind_null(_insert, 2));
        Check(raw.sqlite3_bind_text(_insert, 3, Encoding.UTF8.GetBytes(request)));
        var result = raw.sqlite3_step(_insert);
        var reset = raw.sqlite3_reset(_insert);
        if (result != raw.SQLITE_DONE)
        {
            Check(reset == raw.SQLITE_OK ? result : reset);
        }
    }

    /// <summary>Whether the table has exactly the ids of the newest entries.</summary>
    /// <param name="last">The last entry.</param>
    public bool Agrees(long last) =>
        RequestQueries.Of(_connection, last - Compared).SequenceEqual(RequestQueries.InBodies(_connection, last - Compared));

    /// <summary>Makes the table again from the bodies.</summary>
    /// <param name="last">The last entry.</param>
    public void MakeAnew(long last) => RequestQueries.MakeAnew(_connection, last);

    /// <summary>Removes the ids that need not be remembered any more.</summary>
    /// <param name="last">The last entry.</param>
    public void Trim(long last)
    {
        using var command = _connection.CreateCommand();
        command.CommandText = "DELETE FROM request WHERE serial <= $upTo";
        command.Parameters.AddWithValue("$upTo", last - RequestQueries.Remembered - Margin);
        command.ExecuteNonQuery();
    }

    public void Dispose() => _insert.Dispose();

    private void Check(int result) => SqliteException.ThrowExceptionForRC(result, _database);
}
