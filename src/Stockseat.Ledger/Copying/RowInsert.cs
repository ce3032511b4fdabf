using Microsoft.Data.Sqlite;
using Stockseat.Ledger.Queries;

namespace Stockseat.Ledger.Copying;

/// <summary>Writes rows as they are.</summary>
internal sealed class RowInsert : IDisposable
{
    private readonly SqliteCommand _command;

    public RowInsert(SqliteConnection connection)
    {
        _command = connection.CreateCommand();
        _command.CommandText =
            "INSERT INTO entry (serial, at, kind, fixture, revision, client, tag, body, hash) VALUES ($serial, $at, $kind, $fixture, $revision, $client, $tag, $body, $hash)";
    }

    public void Run(EntryRow row)
    {
        _command.Parameters.Clear();
        foreach (var (name, value) in new (string, object?)[]
        {
            ("$serial", row.Serial), ("$at", row.At), ("$kind", row.Kind), ("$fixture", row.Fixture), ("$revision", row.Revision),
            ("$client", row.Client), ("$tag", row.Tag), ("$body", row.Body), ("$hash", row.Hash),
        })
        {
            _command.Parameters.AddWithValue(name, value ?? DBNull.Value);
        }

        _command.ExecuteNonQuery();
    }

    public void Dispose() => _command.Dispose();
}
