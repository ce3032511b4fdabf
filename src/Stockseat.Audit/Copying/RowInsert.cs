using Microsoft.Data.Sqlite;

namespace Stockseat.Audit.Copying;

/// <summary>Writes rows unchanged.</summary>
public sealed class RowInsert : IDisposable
{
    private static readonly string[] Columns = ["serial", "at", "kind", "fixture", "revision", "client", "tag", "body", "hash"];

    private readonly SqliteCommand _command;
    private readonly object[] _values = new object[Columns.Length];

    /// <param name="connection">The ledger that gets the rows.</param>
    public RowInsert(SqliteConnection connection)
    {
        _command = connection.CreateCommand();
        _command.CommandText = $"INSERT INTO entry ({string.Join(", ", Columns)}) VALUES ({string.Join(", ", Columns.Select(c => $"${c}"))})";
        foreach (var column in Columns)
        {
            _command.Parameters.Add(new() { ParameterName = $"${column}" });
        }
    }

    /// <summary>Writes the current row of a reader of all columns: serial, at, kind, fixture, revision, client, tag, body, hash.</summary>
    public void Run(SqliteDataReader row)
    {
        row.GetValues(_values);
        Run(_values);
    }

    /// <summary>Writes a row with these values; <see cref="DBNull"/> for what is not there.</summary>
    public void Run(ReadOnlySpan<object> values)
    {
        for (var i = 0; i < Columns.Length; i++)
        {
            _command.Parameters[i].Value = values[i];
        }

        _command.ExecuteNonQuery();
    }

    /// <inheritdoc/>
    public void Dispose() => _command.Dispose();
}
