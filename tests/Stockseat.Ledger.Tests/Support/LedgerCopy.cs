using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.Data.Sqlite;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Verbs;
using Stockseat.Ledger.Seals;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Verifying;
using Rows = Stockseat.Ledger.Store.LedgerQueries;

namespace Stockseat.Ledger.Tests.Support;

/// <summary>A copy of a ledger's file, which a test changes as anybody with write access could.</summary>
internal sealed class LedgerCopy : IDisposable
{
    public LedgerCopy(byte[] file) => System.IO.File.WriteAllBytes(File, file);

    public string Folder { get; } = Directory.CreateTempSubdirectory("stockseat-copy-").FullName;

    public string File => Path.Combine(Folder, LedgerFile.Name);

    /// <summary>A body with other values; null removes a value. The order of the rest stays.</summary>
    public static string With(string body, params (string Name, JsonNode? Value)[] changes)
    {
        var json = JsonNode.Parse(body)!.AsObject();
        foreach (var (name, value) in changes)
        {
            if (value is null)
            {
                Assert.True(json.Remove(name));
            }
            else
            {
                json[name] = value;
            }
        }

        return json.ToJsonString();
    }

    /// <summary>Runs SQL; asserts that rows changed.</summary>
    public void Sql(string sql, params (string Name, object Value)[] values)
    {
        using var connection = new SqliteConnection($"Data Source={File};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        foreach (var (name, value) in values)
        {
            command.Parameters.AddWithValue(name, value);
        }

        Assert.NotEqual(0, command.ExecuteNonQuery());
    }

    /// <summary>Writes the whole ledger again, every hash and column right, with or without new seals of a key.</summary>
    public void Rechain(IEnumerable<string> bodies, SealKey? reseal = null)
    {
        Sql("DELETE FROM entry");
        Sql("DELETE FROM request");
        byte[] before = new byte[32];
        string? key = null;
        long serial = 0;
        foreach (var original in bodies)
        {
            serial++;
            var body = With(original, ("serial", serial));
            if (reseal is not null && body.Contains("\"kind\":\"seal\"", StringComparison.Ordinal))
            {
                var at = EntryTime.Parse(JsonNode.Parse(body)!["at"]!.GetValue<string>());
                var seal = reseal.Seal("ledger-1", serial - 1, before, at, key);
                (seal.Serial, seal.At, key) = (serial, EntryTime.Text(at), reseal.Public.Fingerprint);
                body = Text(seal);
            }

            before = SHA256.HashData([1, .. before, .. Encoding.UTF8.GetBytes(body)]);
            Insert(serial, body, before);
        }
    }

    /// <summary>Replaces one body with any text, and recomputes the chain after it; the columns stay as they are.</summary>
    public void Rewrite(long serial, string body)
    {
        Sql("UPDATE entry SET body = $body WHERE serial = $serial", ("$body", body), ("$serial", serial));
        using var connection = new SqliteConnection($"Data Source={File};Pooling=False");
        connection.Open();
        var rows = Rows.After(connection, 0, int.MaxValue);
        using var transaction = connection.BeginTransaction();
        using var command = connection.CreateCommand();
        command.CommandText = "UPDATE entry SET hash = $hash WHERE serial = $serial";
        var (hash, at) = (command.Parameters.AddWithValue("$hash", Array.Empty<byte>()), command.Parameters.AddWithValue("$serial", 0L));
        byte[] before = new byte[32];
        foreach (var row in rows)
        {
            before = SHA256.HashData([1, .. before, .. Encoding.UTF8.GetBytes(row.Body)]);
            (hash.Value, at.Value) = (before, row.Serial);
            command.ExecuteNonQuery();
        }

        transaction.Commit();
    }

    /// <summary>Verifies in one range and in several short ones: the result must be the same.</summary>
    public Verification Verify(VerifyOptions? options = null)
    {
        options = (options ?? new()) with { Pages = true };
        var one = LedgerVerifier.Verify(Folder, options with { Ranges = 1 }, CancellationToken.None);
        var four = LedgerVerifier.Verify(Folder, options with { Ranges = 4, Piece = 3 }, CancellationToken.None);
        Assert.Equal(one.Faults, four.Faults);
        Assert.Equal(one.Findings, four.Findings);
        Assert.Equal((one.Entries, one.Ledger, one.HeadSerial, one.HeadHash, one.Unreadable, one.Seals),
            (four.Entries, four.Ledger, four.HeadSerial, four.HeadHash, four.Unreadable, four.Seals));
        Assert.All(one.Faults, f => Assert.Contains(f.Kind, FaultKinds.All));
        return one;
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true);

    private static string Text(EntryBody body)
    {
        using var stream = new MemoryStream();
        using (var writer = new Utf8JsonWriter(stream))
        {
            BodyJson.Write(writer, body);
        }

        return Encoding.UTF8.GetString(stream.ToArray());
    }

    private void Insert(long serial, string body, byte[] hash)
    {
        var json = JsonNode.Parse(body)!;
        object Text(string name) => json[name]?.GetValue<string>() ?? (object)DBNull.Value;
        Sql("INSERT INTO entry VALUES ($serial, $at, $kind, $fixture, $revision, $client, $tag, $body, $hash)",
            ("$serial", serial), ("$at", Text("at")), ("$kind", Text("kind")), ("$fixture", Text("fixture")),
            ("$revision", json["revision"]?.GetValue<int>() ?? (object)DBNull.Value),
            ("$client", Text("client")), ("$tag", Text("tag")), ("$body", body), ("$hash", hash));
        if (json["request"]?.GetValue<string>() is { } request)
        {
            Sql("INSERT INTO request VALUES ($serial, $client, $request)", ("$serial", serial), ("$client", Text("client")), ("$request", request));
        }
    }
}
