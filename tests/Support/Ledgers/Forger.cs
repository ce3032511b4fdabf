using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.Data.Sqlite;

namespace Stockseat.Tests.Support.Ledgers;

/// <summary>
/// Changes a ledger's file as anybody with write access could: any body, with the columns that copy its values, and the chain recomputed. No code of the
/// service is used.
/// </summary>
internal sealed class Forger : IDisposable
{
    private const string Placeholder = "here it stands";

    /// <summary>Values to put in place of any other, as JSON.</summary>
    public static readonly string[] Nasty =
    [
        "null", "-1", "0", "-0.08", "1e300", "1e999", "99999999999", "5e-324", "1e-320", "true", "\"\"", "\"x\"", "\"\\u001b[2J\\u202e\"", "\"\\ud800\"",
        "\"9999-12-31T23:59:59.999999Z\"", "\"0001-01-01T00:00:00.000000Z\"", "[]", "[1]", "[null,null,null,null]", "{}", "{\"kind\":\"rolled-over\"}",
    ];

    private readonly SqliteConnection _connection;

    public Forger(string ledger)
    {
        _connection = new(new SqliteConnectionStringBuilder { DataSource = ledger, Pooling = false }.ToString());
        _connection.Open();
        Execute("PRAGMA synchronous=OFF");
    }

    /// <summary>All bodies, in order.</summary>
    public List<(long Serial, string Body)> Bodies()
    {
        using var command = _connection.CreateCommand();
        command.CommandText = "SELECT serial, body FROM entry ORDER BY serial";
        using var reader = command.ExecuteReader();
        var bodies = new List<(long, string)>();
        while (reader.Read())
        {
            bodies.Add((reader.GetInt64(0), reader.GetString(1)));
        }

        return bodies;
    }

    /// <summary>
    /// Each value of a body, lists and objects too, replaced by each bad value, and left out; a revision's content only as a whole.
    /// </summary>
    public static IEnumerable<(string What, string Body)> Mutations(string body)
    {
        foreach (var path in Paths(JsonNode.Parse(body)!, ""))
        {
            foreach (var nasty in Nasty)
            {
                yield return ($"{path} = {nasty}", With(body, path, nasty));
            }

            yield return ($"{path} left out", With(body, path, null));
        }
    }

    /// <summary>Replaces a body, or adds one after the last, with its columns; the chain from there on is recomputed.</summary>
    public void Put(long serial, string body)
    {
        using var transaction = _connection.BeginTransaction();
        Insert(serial, body, []);
        Rechain(serial);
        transaction.Commit();
    }

    /// <summary>Adds bodies after the last, each with its columns and a right hash.</summary>
    public void Append(IEnumerable<(long Serial, string Body)> bodies)
    {
        using var transaction = _connection.BeginTransaction();
        byte[]? hash = null;
        foreach (var (serial, body) in bodies)
        {
            hash = SHA256.HashData([1, .. hash ?? Hash(serial - 1)!, .. Encoding.UTF8.GetBytes(body)]);
            Insert(serial, body, hash);
        }

        transaction.Commit();
    }

    /// <summary>Makes bodies that many bytes long: valid JSON, with one long text.</summary>
    /// <param name="serial">The serial of the first.</param>
    /// <param name="bytes">How long.</param>
    /// <param name="count">How many.</param>
    public void Lengthen(long serial, long bytes, int count = 1)
    {
        using var transaction = _connection.BeginTransaction();
        Execute(
            "UPDATE entry SET body = substr(body, 1, length(body) - 1) || ',\"x\":\"'"
            + " || substr(replace(hex(zeroblob($bytes / 2)), '0', 'x'), 1, $bytes - octet_length(body) - 7) || '\"}'"
            + " WHERE serial BETWEEN $serial AND $serial + $count - 1",
            ("$serial", serial), ("$bytes", bytes), ("$count", count));
        Rechain(serial);
        transaction.Commit();
    }

    public void Dispose() => _connection.Dispose();

    private void Rechain(long from)
    {
        var hash = Hash(from - 1) ?? new byte[32];
        foreach (var (serial, body) in Bodies().Where(b => b.Serial >= from))
        {
            hash = SHA256.HashData([1, .. hash, .. Encoding.UTF8.GetBytes(body)]);
            Execute("UPDATE entry SET hash = $hash WHERE serial = $serial", ("$hash", hash), ("$serial", serial));
        }
    }

    private void Insert(long serial, string body, byte[] hash)
    {
        var columns = Columns(body);
        Execute(
            "INSERT OR REPLACE INTO entry VALUES ($serial, $at, $kind, $fixture, $revision, $client, $tag, $body, $hash)",
            ("$serial", serial), ("$at", columns("at") ?? ""), ("$kind", columns("kind") ?? ""), ("$fixture", columns("fixture")),
            ("$revision", columns("revision")), ("$client", columns("client")), ("$tag", columns("tag")), ("$body", body), ("$hash", hash));
    }

    private byte[]? Hash(long serial)
    {
        using var command = _connection.CreateCommand();
        command.CommandText = "SELECT hash FROM entry WHERE serial = $serial";
        command.Parameters.AddWithValue("$serial", serial);
        return command.ExecuteScalar() as byte[];
    }

    private void Execute(string sql, params (string Name, object? Value)[] values)
    {
        using var command = _connection.CreateCommand();
        command.CommandText = sql;
        foreach (var (name, value) in values)
        {
            command.Parameters.AddWithValue(name, value ?? DBNull.Value);
        }

        command.ExecuteNonQuery();
    }

    /// <summary>The values of the columns; null where the body has none that fits.</summary>
    private static Func<string, object?> Columns(string body)
    {
        using var json = JsonDocument.Parse(body);
        var values = new Dictionary<string, object?>();
        foreach (var property in json.RootElement.EnumerateObject())
        {
            values[property.Name] = property.Value.ValueKind switch
            {
                JsonValueKind.String when property.Name != "revision" => Text(property.Value),
                JsonValueKind.Number when property.Name == "revision" && property.Value.TryGetInt64(out var number) => number,
                _ => null,
            };
        }

        return name => values.GetValueOrDefault(name);
    }

    private static string Text(JsonElement value)
    {
        try
        {
            return value.GetString()!;
        }
        catch (InvalidOperationException)
        {
            return "\uFFFD"; // half of a character
        }
    }

    private static IEnumerable<string> Paths(JsonNode node, string path)
    {
        if (node is JsonObject o)
        {
            foreach (var (name, value) in o)
            {
                yield return $"{path}/{name}";
                foreach (var inner in value is null || name == "content" ? [] : Paths(value, $"{path}/{name}"))
                {
                    yield return inner;
                }
            }
        }
        else if (node is JsonArray a)
        {
            for (var i = 0; i < a.Count; i++)
            {
                yield return $"{path}/{i}";
                foreach (var inner in a[i] is { } item ? Paths(item, $"{path}/{i}") : [])
                {
                    yield return inner;
                }
            }
        }
    }

    private static string With(string body, string path, string? nasty)
    {
        var root = JsonNode.Parse(body)!;
        var names = path.Split('/')[1..];
        var place = names[..^1].Aggregate(root, (node, name) => (node is JsonArray a
            ? a[int.Parse(name, System.Globalization.CultureInfo.InvariantCulture)] : node[name])!);
        var value = nasty is null ? null : JsonValue.Create(Placeholder);
        if (place is JsonArray list)
        {
            var index = int.Parse(names[^1], System.Globalization.CultureInfo.InvariantCulture);
            list.RemoveAt(index);
            if (value is not null)
            {
                list.Insert(index, value);
            }
        }
        else
        {
            _ = nasty is null ? ((JsonObject)place).Remove(names[^1]) : (place[names[^1]] = value) is not null;
        }

        return root.ToJsonString().Replace($"\"{Placeholder}\"", nasty, StringComparison.Ordinal);
    }
}
