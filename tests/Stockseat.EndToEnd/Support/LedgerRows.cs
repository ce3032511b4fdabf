using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Microsoft.Data.Sqlite;

namespace Stockseat.EndToEnd.Support;

/// <summary>One row of the ledger, read without any code of the service.</summary>
internal sealed record LedgerRow(long Serial, string Kind, JsonElement Body);

/// <summary>Reads ledgers with plain SQL and walks their chain with the platform's SHA-256.</summary>
internal static class LedgerRows
{
    /// <summary>All rows in order, including those of closed ledgers; each chain is intact and no serial is missing.</summary>
    public static IReadOnlyList<LedgerRow> Read(string data)
    {
        var closed = Path.Combine(data, "closed");
        var files = Directory.Exists(closed) ? Directory.GetFiles(closed, "*.db").OrderBy(f => long.Parse(Path.GetFileName(f).Split('-')[0]))
            : Enumerable.Empty<string>();
        var rows = new List<LedgerRow>();
        foreach (var file in files.Append(Path.Combine(data, "ledger.db")))
        {
            Read(file, rows);
        }

        return rows;
    }

    private static void Read(string file, List<LedgerRow> rows)
    {
        using var connection = Open(file, SqliteOpenMode.ReadOnly);
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT serial, kind, body, hash FROM entry ORDER BY serial";
        using var reader = command.ExecuteReader();
        var hash = new byte[32];
        while (reader.Read())
        {
            var body = reader.GetString(2);
            hash = SHA256.HashData([1, .. hash, .. Encoding.UTF8.GetBytes(body)]);
            Assert.Equal(rows.Count + 1, reader.GetInt64(0));
            Assert.Equal(hash, reader.GetFieldValue<byte[]>(3));
            rows.Add(new(reader.GetInt64(0), reader.GetString(1), JsonSerializer.Deserialize<JsonElement>(body)));
        }
    }

    /// <summary>Changes the last digit of an entry's body, as somebody with an editor could.</summary>
    public static void ChangeOneDigit(string data, long serial)
    {
        using var connection = Open(Path.Combine(data, "ledger.db"), SqliteOpenMode.ReadWrite);
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT body FROM entry WHERE serial = $serial";
        command.Parameters.AddWithValue("$serial", serial);
        var body = ((string)command.ExecuteScalar()!).ToCharArray();
        var at = Array.FindLastIndex(body, char.IsAsciiDigit);
        body[at] = body[at] == '9' ? '8' : (char)(body[at] + 1);
        command.CommandText = "UPDATE entry SET body = $body WHERE serial = $serial";
        command.Parameters.AddWithValue("$body", new string(body));
        Assert.Equal(1, command.ExecuteNonQuery());
    }

    /// <summary>Changes entries of the current ledger, as somebody with a database tool could; asserts that some changed.</summary>
    public static void Change(string data, string sql)
    {
        using var connection = Open(Path.Combine(data, "ledger.db"), SqliteOpenMode.ReadWrite);
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        Assert.NotEqual(0, command.ExecuteNonQuery());
    }

    private static SqliteConnection Open(string file, SqliteOpenMode mode)
    {
        var connection = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = file, Mode = mode, Pooling = false }.ToString());
        connection.Open();
        return connection;
    }
}
