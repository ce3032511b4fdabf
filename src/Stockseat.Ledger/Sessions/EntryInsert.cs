using System.Text;
using Microsoft.Data.Sqlite;
using SQLitePCL;
using Stockseat.Answers.Entries;

namespace Stockseat.Ledger.Sessions;

/// <summary>
/// The insert of an entry, on the hot path. It is prepared once and bound without the layers above SQLite: the body goes in as exactly the bytes that were
/// hashed.
/// </summary>
internal sealed class EntryInsert : IDisposable
{
    private const string Sql = "INSERT INTO entry (serial, at, kind, fixture, revision, client, tag, body, hash) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)";

    /// <summary>Room for the longest column other than the body, in UTF-8.</summary>
    private const int LongestColumn = 1024;

    private readonly sqlite3 _database;
    private readonly sqlite3_stmt _statement;

    public EntryInsert(SqliteConnection connection)
    {
        _database = connection.Handle!;
        Check(raw.sqlite3_prepare_v3(_database, Sql, raw.SQLITE_PREPARE_PERSISTENT, out _statement));
    }

    /// <summary>Inserts one entry.</summary>
    /// <exception cref="SqliteException">The entry could not be written.</exception>
    public void Run(EntryBody body, ReadOnlySpan<byte> text, ReadOnlySpan<byte> hash)
    {
        Check(raw.sqlite3_bind_int64(_statement, 1, body.Serial));
        Bind(2, body.At);
        Bind(3, body.Kind);
        Bind(4, body.Fixture);
        Check(body.Revision is { } revision ? raw.sqlite3_bind_int64(_statement, 5, revision) : raw.sqlite3_bind_null(_statement, 5));
        Bind(6, body.Client);
        Bind(7, body.Tag);
        Check(raw.sqlite3_bind_text(_statement, 8, text));
        Check(raw.sqlite3_bind_blob(_statement, 9, hash));
        var result = raw.sqlite3_step(_statement);
        var reset = raw.sqlite3_reset(_statement);
        if (result != raw.SQLITE_DONE)
        {
            Check(reset == raw.SQLITE_OK ? result : reset);
        }
    }

    public void Dispose() => _statement.Dispose();

    private void Bind(int column, string? value)
    {
        if (value is null)
        {
            Check(raw.sqlite3_bind_null(_statement, column));
            return;
        }

        Span<byte> bytes = stackalloc byte[LongestColumn];
        Check(Encoding.UTF8.TryGetBytes(value, bytes, out var length)
            ? raw.sqlite3_bind_text(_statement, column, bytes[..length])
            : raw.sqlite3_bind_text(_statement, column, value));
    }

    private void Check(int result) => SqliteException.ThrowExceptionForRC(result, _database);
}
