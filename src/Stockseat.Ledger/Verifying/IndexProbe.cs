using Microsoft.Data.Sqlite;
using SQLitePCL;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Verifying;

/// <summary>Looks rows up in the partial indexes, as a start does: a start does not know a row that an index leaves out.</summary>
internal sealed class IndexProbe : IDisposable
{
    private readonly sqlite3 _database;
    private readonly sqlite3_stmt _standing;
    private readonly sqlite3_stmt? _refused;

    public IndexProbe(SqliteConnection connection)
    {
        _database = connection.Handle!;
        _standing = Prepare($"SELECT 1 FROM entry INDEXED BY {LedgerIndexes.OfStanding}"
            + $" WHERE {LedgerQueries.InStanding} AND fixture IS ?1 AND serial = ?2 AND kind = ?3");
        _refused = LedgerTables.VersionOf(connection) > LedgerTables.Oldest ? null :
            Prepare($"SELECT 1 FROM entry INDEXED BY {LedgerIndexes.OfRefusedPushes} WHERE {LedgerQueries.RefusedPushes} AND fixture IS ?1 AND serial = ?2");
    }

    /// <summary>Whether a row belongs in the index that leaves answers and refusals out.</summary>
    public static bool Stands(in EntryBytes row) => !row.Kind.SequenceEqual("answer"u8) && !row.Kind.SequenceEqual("refusal"u8);

    /// <summary>Whether a row belongs in the index of refused pushes.</summary>
    public static bool IsRefusedPush(in EntryBytes row) =>
        row.Kind.SequenceEqual("refusal"u8) && row.Body.IndexOf("\"asked\":\"measured\""u8) >= 0
            && row.Body.IndexOf("\"asked\":\"measured\",\"reason\":\"not-permitted\""u8) < 0;

    /// <summary>Whether the index that a row belongs in has the row; true when it belongs in none.</summary>
    public bool Has(in EntryBytes row, bool stands) => (stands ? _standing : _refused) is not { } statement || Has(statement, row, withKind: stands);

    public void Dispose()
    {
        _standing.Dispose();
        _refused?.Dispose();
    }

    private bool Has(sqlite3_stmt statement, in EntryBytes row, bool withKind)
    {
        Check(row.HasFixture ? raw.sqlite3_bind_text(statement, 1, row.Fixture) : raw.sqlite3_bind_null(statement, 1));
        Check(raw.sqlite3_bind_int64(statement, 2, row.Serial));
        if (withKind)
        {
            Check(raw.sqlite3_bind_text(statement, 3, row.Kind));
        }

        var result = raw.sqlite3_step(statement);
        _ = raw.sqlite3_reset(statement); // The statement gives the same result again.
        if (result is not (raw.SQLITE_ROW or raw.SQLITE_DONE))
        {
            Check(result);
        }

        return result == raw.SQLITE_ROW;
    }

    private sqlite3_stmt Prepare(string sql)
    {
        Check(raw.sqlite3_prepare_v3(_database, sql, raw.SQLITE_PREPARE_PERSISTENT, out var statement));
        return statement;
    }

    private void Check(int result) => SqliteException.ThrowExceptionForRC(result, _database);
}
