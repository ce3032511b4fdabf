using System.Text.Json;
using Microsoft.Data.Sqlite;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;
using Stockseat.Answers.Verbs;

namespace Stockseat.Ledger.Store;

/// <summary>Reads rows over a connection.</summary>
public static class LedgerQueries
{
    /// <summary>A body that is too long, by <see cref="BodyJson.LongestOf"/>, is not read: the file tells its length without reading it.</summary>
    internal const string Columns = $"SELECT serial, at, kind, fixture, revision, client, tag, CASE WHEN {Readable} THEN body ELSE '' END, hash FROM entry";

    private const string Readable = "octet_length(body) <= CASE WHEN kind IN ('rolled-over', 'snapshot') THEN 67108864 ELSE 4194304 END";

    private const string Filtered =
        " AND ($fixture IS NULL OR fixture = $fixture) AND ($kind IS NULL OR kind = $kind) AND ($client IS NULL OR client = $client) AND ($tag IS NULL OR "
            + "tag = $tag)"
        + " AND ($from IS NULL OR at >= $from) AND ($to IS NULL OR at < $to)"
        + $" AND CASE WHEN $cell IS NULL THEN 1 WHEN NOT {Readable} OR instr(body, $cellText) = 0 OR NOT json_valid(body) THEN 0"
        + " ELSE json_extract(body, '$.cell') = $cell END"
        + $" AND CASE WHEN $lot IS NULL THEN 1 WHEN NOT {Readable} OR instr(body, $lotText) = 0 OR NOT json_valid(body) THEN 0"
        + " ELSE json_extract(body, '$.lot') = $lot END";

    /// <summary>One entry.</summary>
    public static EntryRow? Find(SqliteConnection connection, long serial) =>
        Read(connection, $"{Columns} WHERE serial = $serial", ("$serial", serial)).FirstOrDefault();

    /// <summary>The hash stored with an entry; null when there is no such entry.</summary>
    public static byte[]? HashOf(SqliteConnection connection, long serial)
    {
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT hash FROM entry WHERE serial = $serial";
        command.Parameters.AddWithValue("$serial", serial);
        return command.ExecuteScalar() as byte[];
    }

    /// <summary>The ledger's id, from its first entry; null in an empty ledger, and when the first entry has none.</summary>
    /// <exception cref="JsonException">The body of the first entry can't be read.</exception>
    public static string? LedgerId(SqliteConnection connection) => First(connection) is { } first ? IdIn(first) : null;

    /// <summary>The id in a first entry; null when it has none.</summary>
    /// <exception cref="JsonException">The body can't be read.</exception>
    internal static string? IdIn(EntryRow first)
    {
        using var body = JsonDocument.Parse(first.Body);
        return body.RootElement.ValueKind == JsonValueKind.Object && body.RootElement.TryGetProperty("ledger", out var id)
            && id.ValueKind == JsonValueKind.String
            ? id.GetString() : null;
    }

    /// <summary>The first entry; null in an empty ledger.</summary>
    public static EntryRow? First(SqliteConnection connection) => Read(connection, $"{Columns} ORDER BY serial LIMIT 1").FirstOrDefault();

    /// <summary>How many serials one filtered read covers: a longer one would keep the log from being copied into the database.</summary>
    public const int LongestScan = 100_000;

    /// <summary>The last serial; 0 in an empty ledger.</summary>
    public static long Last(SqliteConnection connection)
    {
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT coalesce(max(serial), 0) FROM entry";
        return (long)command.ExecuteScalar()!;
    }

    /// <summary>Entries above a serial and up to another one, in order. Each call reads only a bounded piece, whatever the filter.</summary>
    /// <param name="connection">The ledger.</param>
    /// <param name="above">The serial above which they lie.</param>
    /// <param name="last">The last serial that is read.</param>
    /// <param name="count">The most entries.</param>
    /// <param name="filter">Which entries are wanted.</param>
    public static EntryPiece Piece(SqliteConnection connection, long above, long last, int count, EntryFilter? filter)
    {
        last = last - LongestScan > above ? above + LongestScan : last;
        var rows = Read(
            connection, $"{Columns} WHERE serial > $above AND serial <= $last{Filtered} ORDER BY serial LIMIT $count",
            [("$above", above), ("$last", last), ("$count", count), .. Of(filter)]);
        return new(rows, rows.Count == count ? rows[^1].Serial : Math.Max(above, last));
    }

    /// <summary>The newest entries above a serial and up to another one, the newest first.</summary>
    public static List<EntryRow> Downwards(SqliteConnection connection, long above, long upTo, int count, EntryFilter? filter) => Read(
        connection, $"{Columns} WHERE serial > $above AND serial <= $upTo{Filtered} ORDER BY serial DESC LIMIT $count",
        [("$above", above), ("$upTo", upTo), ("$count", count), .. Of(filter)]);

    /// <summary>The newest entries among the last <see cref="LongestScan"/>, in order.</summary>
    public static List<EntryRow> Newest(SqliteConnection connection, int count, EntryFilter? filter = null)
    {
        var rows = Read(
            connection, $"{Columns} WHERE serial > $above{Filtered} ORDER BY serial DESC LIMIT $count",
            [("$above", Last(connection) - LongestScan), ("$count", count), .. Of(filter)]);
        rows.Reverse();
        return rows;
    }

    /// <summary>Entries above a serial, in order.</summary>
    public static List<EntryRow> After(SqliteConnection connection, long serial, int count, EntryFilter? filter = null, long upTo = long.MaxValue) => Read(
        connection, $"{Columns} WHERE serial > $serial AND serial <= $upTo{Filtered} ORDER BY serial LIMIT $count",
        [("$serial", serial), ("$upTo", upTo), ("$count", count), .. Of(filter)]);

    /// <summary>The newest entries below a serial, in order.</summary>
    public static List<EntryRow> Before(SqliteConnection connection, long serial, int count, EntryFilter? filter = null)
    {
        var rows = Read(
            connection, $"{Columns} WHERE serial < $serial{Filtered} ORDER BY serial DESC LIMIT $count",
            [("$serial", serial), ("$count", count), .. Of(filter)]);
        rows.Reverse();
        return rows;
    }

    /// <summary>Pushes that were refused and so voided the measurement; without those of clients that may not push.</summary>
    internal const string RefusedPushes =
        "kind = 'refusal' AND instr(body, '\"asked\":\"measured\"') > 0 AND instr(body, '\"asked\":\"measured\",\"reason\":\"not-permitted\"') = 0";

    internal const string InStanding = "kind NOT IN ('answer', 'refusal')";

    /// <summary>Whether somebody began to hold a fixture above a serial; by the same index. An entry with a broken body does not count.</summary>
    internal static bool IsHeldSince(SqliteConnection connection, string fixture, string by, long above)
    {
        using var command = connection.CreateCommand();
        command.CommandText = $"SELECT 1 FROM entry WHERE {InStanding} AND fixture = $fixture AND kind = 'held' AND serial > $above"
            + " AND CASE WHEN json_valid(body) THEN json_extract(body, '$.by') = $by END LIMIT 1";
        command.Parameters.AddWithValue("$fixture", fixture);
        command.Parameters.AddWithValue("$above", above);
        command.Parameters.AddWithValue("$by", by);
        return command.ExecuteScalar() is not null;
    }

    /// <summary>Finds the newest rechecks of a fixture below a serial, by the same index.</summary>
    public const string RechecksSql =
        $"{Columns} WHERE {InStanding} AND fixture = $fixture AND kind = 'recheck' AND serial < $below ORDER BY serial DESC LIMIT $count";

    /// <summary>The newest rechecks of a fixture below a serial, in order; by the same index.</summary>
    /// <param name="connection">The ledger.</param>
    /// <param name="fixture">The fixture.</param>
    /// <param name="below">The serial below which they lie.</param>
    /// <param name="count">The most rechecks.</param>
    public static List<EntryRow> Rechecks(SqliteConnection connection, string fixture, long below, int count)
    {
        var rows = Read(connection, RechecksSql, ("$fixture", fixture), ("$below", below), ("$count", count));
        rows.Reverse();
        return rows;
    }

    /// <summary>The newest start of the service up to a serial, by the same index; null when there is none.</summary>
    public static EntryRow? NewestServiceStart(SqliteConnection connection, long upTo) => Read(
        connection,
        $"{Columns} WHERE {InStanding} AND fixture IS NULL AND kind = 'service-started' AND serial <= $upTo ORDER BY serial DESC LIMIT 1",
        ("$upTo", upTo)).FirstOrDefault();

    /// <summary>Finds the newest seal, by the same index.</summary>
    public const string NewestSealSql = $"{Columns} WHERE {InStanding} AND fixture IS NULL AND kind = 'seal' ORDER BY serial DESC LIMIT 1";

    /// <summary>The newest seal; null when there is none.</summary>
    public static EntryRow? SealRow(SqliteConnection connection) => Read(connection, NewestSealSql).FirstOrDefault();

    /// <summary>The serial of the newest snapshot up to a serial, by the same index; null when there is none.</summary>
    internal static long? NewestSnapshot(SqliteConnection connection, long upTo)
    {
        using var command = connection.CreateCommand();
        command.CommandText = $"SELECT max(serial) FROM entry WHERE {InStanding} AND fixture IS NULL AND kind = 'snapshot' AND serial <= $upTo";
        command.Parameters.AddWithValue("$upTo", upTo);
        return command.ExecuteScalar() as long?;
    }

    /// <summary>The newest entry that is neither a seal nor a snapshot; null in a new ledger.</summary>
    internal static EntryRow? NewestThatHappened(SqliteConnection connection) =>
        Read(connection, $"{Columns} WHERE kind NOT IN ('seal', 'snapshot') ORDER BY serial DESC LIMIT 1").FirstOrDefault();

    /// <summary>
    /// The first entry above a serial after which instants may be earlier than before it: a step of the clock, or a start; null when there is none.
    /// </summary>
    internal static long? NextBorder(SqliteConnection connection, long above)
    {
        using var command = connection.CreateCommand();
        command.CommandText =
            $"SELECT min(serial) FROM (SELECT min(serial) AS serial FROM entry WHERE {InStanding} AND fixture IS NULL AND kind = 'clock-step' AND serial > "
                + $"$above"
            + $" UNION ALL SELECT min(serial) FROM entry WHERE {InStanding} AND fixture IS NULL AND kind = 'service-started' AND serial > $above)";
        command.Parameters.AddWithValue("$above", above);
        return command.ExecuteScalar() as long?;
    }

    /// <summary>Serial and instant of the first entry from a serial on; null when there is none.</summary>
    internal static (long Serial, string At)? InstantFrom(SqliteConnection connection, long serial) =>
        Instant(connection, "SELECT serial, at FROM entry WHERE serial >= $serial ORDER BY serial LIMIT 1", serial);

    /// <summary>Serial and instant of the last entry up to a serial; null when there is none.</summary>
    internal static (long Serial, string At)? InstantUpTo(SqliteConnection connection, long serial) =>
        Instant(connection, "SELECT serial, at FROM entry WHERE serial <= $serial ORDER BY serial DESC LIMIT 1", serial);

    private static (long Serial, string At)? Instant(SqliteConnection connection, string sql, long serial)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.Parameters.AddWithValue("$serial", serial);
        using var reader = command.ExecuteReader();
        return reader.Read() ? (reader.GetInt64(0), reader.GetString(1)) : null;
    }

    private static (string Name, object? Value)[] Of(EntryFilter? filter) =>
    [
        ("$fixture", filter?.Fixture), ("$kind", filter?.Kind), ("$client", filter?.Client), ("$tag", filter?.Tag),
        ("$from", Text(filter?.From)), ("$to", Text(filter?.To)),
        ("$cell", filter?.Cell), ("$cellText", Written("cell", filter?.Cell)), ("$lot", filter?.Lot), ("$lotText", Written("lot", filter?.Lot)),
    ];

    /// <summary>A key and its value, as text in a body: most rows can be skipped by looking for this text, without reading their JSON.</summary>
    private static string? Written(string key, string? text) => text is null ? null : $"\"{key}\":\"{JsonEncodedText.Encode(text)}\"";

    internal static List<EntryRow> Read(SqliteConnection connection, string sql, params (string Name, object? Value)[] parameters) =>
        [.. Stream(connection, sql, parameters)];

    /// <summary>Rows, one by one, as long as the caller takes them.</summary>
    internal static IEnumerable<EntryRow> Stream(SqliteConnection connection, string sql, params (string Name, object? Value)[] parameters)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        foreach (var (name, value) in parameters)
        {
            command.Parameters.AddWithValue(name, value ?? DBNull.Value);
        }

        using var reader = command.ExecuteReader();
        while (reader.Read())
        {
            yield return new(
                reader.GetInt64(0), reader.GetString(1), reader.GetString(2), Text(reader, 3), Number(reader, 4),
                Text(reader, 5), Text(reader, 6), reader.GetString(7), reader.GetFieldValue<byte[]>(8));
        }
    }

    internal static string? Text(DateTimeOffset? at) => at is { } instant ? EntryTime.Text(instant) : null;

    /// <summary>Empty when it is not a revision's content, or too large to be one.</summary>
    private static int? Number(SqliteDataReader reader, int column) => reader.GetValue(column) is long number and >= int.MinValue and <= int.MaxValue
        ? (int)number : null;

    internal static string? Text(SqliteDataReader reader, int column) => reader.IsDBNull(column) ? null : reader.GetString(column);
}
