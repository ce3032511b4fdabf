using System.Globalization;
using Microsoft.Data.Sqlite;

namespace Stockseat.Ledger.Store;

/// <summary>
/// What a ledger's file may hold beside its rows: exactly the objects that the service makes, to the letter. A trigger could leave out or delete acknowledged
/// entries, and a view could take the place of the table.
/// </summary>
public static class LedgerTables
{
    /// <summary>The version of the tables in the first ledgers.</summary>
    public const int Oldest = 1;

    /// <summary>The version of the tables in new ledgers.</summary>
    public const int Newest = 2;

    /// <summary>The place of the version in the file.</summary>
    private const string Version = "PRAGMA user_version";

    private const string Entries = """
        CREATE TABLE entry (
          serial INTEGER PRIMARY KEY, at TEXT NOT NULL, kind TEXT NOT NULL, fixture TEXT, revision INTEGER,
          client TEXT, tag TEXT, body TEXT NOT NULL, hash BLOB NOT NULL) STRICT;
        CREATE INDEX entry_standing ON entry (fixture, kind, serial) WHERE kind NOT IN ('answer', 'refusal');
        """;

    /// <summary>
    /// The tables and indexes of each version, never to be changed: another form is another version. With version 1 there were no snapshots, and a start found
    /// the entries that void a measurement by an index.
    /// </summary>
    private static readonly string[] Texts =
    [
        $"{Entries} CREATE INDEX entry_refused_push ON entry (fixture, serial) WHERE {LedgerQueries.RefusedPushes};",
        $"{Entries} CREATE TABLE request (serial INTEGER PRIMARY KEY, client TEXT, request TEXT NOT NULL) STRICT;",
    ];

    private static readonly Lazy<Dictionary<string, string>[]> Known = new(() => [.. Texts.Select(text =>
    {
        using var fresh = new SqliteConnection("Data Source=:memory:");
        fresh.Open();
        LedgerFile.Execute(fresh, text);
        return Objects(fresh);
    })]);

    /// <summary>Makes the tables of a version in an empty file.</summary>
    public static string Make(int version) => string.Create(
        CultureInfo.InvariantCulture,
        $"BEGIN IMMEDIATE; {Texts[version - Oldest]} PRAGMA application_id={LedgerFile.ApplicationId}; {Version}={version}; COMMIT");

    /// <summary>The version of a ledger's tables.</summary>
    public static int VersionOf(SqliteConnection connection)
    {
        using var command = connection.CreateCommand();
        command.CommandText = Version;
        return Convert.ToInt32(command.ExecuteScalar(), CultureInfo.InvariantCulture);
    }

    /// <summary>Whether the version has a table for request ids.</summary>
    public static bool HasRequests(SqliteConnection connection) => VersionOf(connection) > Oldest;

    /// <summary>Whether a version is one of these.</summary>
    public static bool Knows(string? version) =>
        int.TryParse(version, NumberStyles.None, CultureInfo.InvariantCulture, out var v) && v is >= Oldest and <= Newest;

    /// <summary>Everything that is not as the service makes it, in words.</summary>
    public static List<string> Faults(SqliteConnection connection)
    {
        var (expected, found) = (KnownOf(connection), Objects(connection));
        return
        [
            .. expected.Where(e => !found.ContainsKey(e.Key)).Select(e => $"{e.Key} is missing"),
            .. expected.Where(e => found.TryGetValue(e.Key, out var text) && text != e.Value)
                .Select(e => $"{e.Key} is not as the service makes it: {found[e.Key]}"),
            .. found.Keys.Except(expected.Keys).Order(StringComparer.Ordinal).Select(n => $"{n} does not belong in a ledger"),
        ];
    }

    /// <summary>Whether the indexes are as the service makes them.</summary>
    public static bool HasIndexes(SqliteConnection connection)
    {
        var found = Objects(connection);
        return KnownOf(connection).All(e => !e.Key.StartsWith("index ", StringComparison.Ordinal) || found.GetValueOrDefault(e.Key) == e.Value);
    }

    /// <summary>Refuses a file that has anything else.</summary>
    /// <param name="connection">The ledger.</param>
    /// <param name="path">Its file.</param>
    /// <exception cref="ForeignTablesException">The file has something else.</exception>
    public static void Require(SqliteConnection connection, string path)
    {
        if (Faults(connection) is [_, ..] faults)
        {
            throw new ForeignTablesException(
                $"{path} is not written, since another program changed its tables: {string.Join("; ", faults)}. "
                + "Find out who did that, run stockseat ledger verify, and undo the change with a tool for SQLite, "
                + "or put a copy of the ledger in its place");
        }
    }

    private static Dictionary<string, string> KnownOf(SqliteConnection connection) => Known.Value[Math.Clamp(VersionOf(connection), Oldest, Newest) - Oldest];

    private static Dictionary<string, string> Objects(SqliteConnection connection)
    {
        using var command = connection.CreateCommand();
        command.CommandText = """
            SELECT type || ' ' || name, coalesce(sql, '') || CASE tbl_name WHEN 'entry' THEN '' ELSE ' on ' || tbl_name END FROM sqlite_schema ORDER BY 1
            """;
        using var reader = command.ExecuteReader();
        var objects = new Dictionary<string, string>(StringComparer.Ordinal);
        while (reader.Read())
        {
            objects[reader.GetString(0)] = reader.GetString(1);
        }

        return objects;
    }
}
