using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace Stockseat.Ledger.Store;

/// <summary>Reads rows as raw bytes, with one prepared statement, without the layers above SQLite.</summary>
public sealed class EntryScan : IDisposable
{
    private const string Columns = "SELECT serial, at, kind, fixture, revision, client, tag, body, hash FROM entry";

    private const int LastColumn = 8;

    private readonly sqlite3 _database;
    private readonly sqlite3_stmt _statement;

    private EntryScan(SqliteConnection connection, string where)
    {
        _database = connection.Handle!;
        SqliteException.ThrowExceptionForRC(raw.sqlite3_prepare_v3(_database, $"{Columns} {where}", raw.SQLITE_PREPARE_PERSISTENT, out _statement), _database);
    }

    /// <summary>Rows from ?1 to ?2 in order, at most ?3.</summary>
    public static EntryScan Upwards(SqliteConnection connection) => new(connection, "WHERE serial >= ?1 AND serial <= ?2 ORDER BY serial LIMIT ?3");

    /// <summary>Rows from ?2 down to ?1, at most ?3.</summary>
    public static EntryScan Downwards(SqliteConnection connection) => new(connection, "WHERE serial >= ?1 AND serial <= ?2 ORDER BY serial DESC LIMIT ?3");

    /// <summary>Starts again.</summary>
    public void Begin(long from, long to, long count)
    {
        _ = raw.sqlite3_reset(_statement); // The error of the last step was thrown when it happened.
        Check(raw.sqlite3_bind_int64(_statement, 1, from));
        Check(raw.sqlite3_bind_int64(_statement, 2, to));
        Check(raw.sqlite3_bind_int64(_statement, 3, count));
    }

    /// <summary>Goes to the next row; its bytes are valid until the next step.</summary>
    /// <exception cref="SqliteException">The row can't be read.</exception>
    public bool Step(out EntryBytes row)
    {
        row = default;
        var result = raw.sqlite3_step(_statement);
        if (result == raw.SQLITE_DONE)
        {
            End();
            return false;
        }

        if (result != raw.SQLITE_ROW)
        {
            Check(result);
        }

        Span<nint> values = stackalloc nint[LastColumn + 1];
        Span<int> types = stackalloc int[LastColumn + 1];
        var statement = _statement.DangerousGetHandle(); // This object keeps it alive.
        for (var i = 0; i <= LastColumn; i++)
        {
            values[i] = RowCalls.Value(statement, i);
            types[i] = RowCalls.TypeOf(values[i]);
        }

        row.Serial = RowCalls.Integer(values[0]);
        row.At = Bytes(values[1], types[1]);
        row.Kind = Bytes(values[2], types[2]);
        row.Fixture = Bytes(values[3], types[3]);
        row.Revision = types[4] == raw.SQLITE_INTEGER ? RowCalls.Integer(values[4]) : 0;
        row.Client = Bytes(values[5], types[5]);
        row.Tag = Bytes(values[6], types[6]);
        row.Body = Bytes(values[7], types[7]);
        row.Hash = Bytes(values[8], types[8]);
        row.HasFixture = types[3] != raw.SQLITE_NULL;
        row.HasRevision = types[4] != raw.SQLITE_NULL;
        row.HasClient = types[5] != raw.SQLITE_NULL;
        row.HasTag = types[6] != raw.SQLITE_NULL;
        row.Mistyped = Mistyped(types);
        return true;
    }

    /// <summary>Ends the read, so that nothing has to wait for it.</summary>
    public void End() => _ = raw.sqlite3_reset(_statement);

    public void Dispose() => _statement.Dispose();

    /// <summary>A number where a text belongs is not converted: the column counts as mistyped, and is empty here.</summary>
    private static ReadOnlySpan<byte> Bytes(nint value, int type) => type is raw.SQLITE_TEXT or raw.SQLITE_BLOB ? RowCalls.Bytes(value) : default;

    /// <summary>A broken page may have values that the table does not allow: the first such column.</summary>
    private string? Mistyped(scoped ReadOnlySpan<int> types)
    {
        for (var i = 1; i <= LastColumn; i++)
        {
            var type = types[i];
            var right = i switch
            {
                4 => type is raw.SQLITE_INTEGER or raw.SQLITE_NULL,
                8 => type == raw.SQLITE_BLOB,
                3 or 5 or 6 => type is raw.SQLITE_TEXT or raw.SQLITE_NULL,
                _ => type == raw.SQLITE_TEXT,
            };
            if (!right)
            {
                return raw.sqlite3_column_name(_statement, i).utf8_to_string();
            }
        }

        return null;
    }

    private void Check(int result) => SqliteException.ThrowExceptionForRC(result, _database);
}
