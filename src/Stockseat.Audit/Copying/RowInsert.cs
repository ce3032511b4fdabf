using Microsoft.Data.Sqlite;

namespace Stockseat.Audit.Copying;

/// <summary>Writes rows unchanged.</summary>
internal sealed class RowInsert : IDisposable
{
    private readonly SqliteCommand _command;

    public RowInsert(SqliteConnection connection)
    {
        _command = connection.CreateCommand();
        _command.CommandText =
            "INSERT INTO entry (serial, at, kind, fixture, revision, client, tag, body, hash) VALUES ($serial, $at, $kind, $fixture, $revision, $client, "
                + "$tag, $body, $hash)";
    }

    /// <summary>Writes the current row of a reader of all columns.</summary>
    public void Run(SqliteDataReader row)
    {
        _command.Parameters.Clear();
        for (var i = 0; i < row.FieldCount; i++)
        {
            _command.Parameters.AddWithValue($"${row.GetName(i)}", row.GetValue(i));
        }

        _command.ExecuteNonQuery();
    }

    public void Dispose() => _command.Dispose();
}
