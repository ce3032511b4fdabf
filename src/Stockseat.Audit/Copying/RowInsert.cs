using Microsoft.Data.Sqlite;

namespace Stockseat.Audit.Copying;

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

    /// <summary>Writes the row at which a reader of all columns stands.</summary>
    public void Run(SqliteDataReader row)
    {
        _command.Parameters.Clear();
        for (var i = 0; i < row.FieldCount; i++)
        {
            _command.Parameters.AddWithValue($"${row.GetName(i)}", row.GetValue(i));
        }

        _command.ExecuteNonQuery();
    }

    /// <summary>Writes the request ids between two serials as they are.</summary>
    public void Requests(SqliteConnection source, long above, long upTo)
    {
        using var command = source.CreateCommand();
        command.CommandText = "SELECT serial, client, request FROM request WHERE serial > $above AND serial <= $upTo";
        command.Parameters.AddWithValue("$above", above);
        command.Parameters.AddWithValue("$upTo", upTo);
        using var insert = _command.Connection!.CreateCommand();
        insert.CommandText = "INSERT INTO request (serial, client, request) VALUES ($serial, $client, $request)";
        using var reader = command.ExecuteReader();
        while (reader.Read())
        {
            insert.Parameters.Clear();
            for (var i = 0; i < reader.FieldCount; i++)
            {
                insert.Parameters.AddWithValue($"${reader.GetName(i)}", reader.GetValue(i));
            }

            insert.ExecuteNonQuery();
        }
    }

    public void Dispose() => _command.Dispose();
}
