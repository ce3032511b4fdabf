using Microsoft.Data.Sqlite;

namespace Stockseat.Ledger.Store;

/// <summary>
/// What a ledger's file may hold beside its rows: exactly what the service makes, to the letter. A trigger could leave out or delete what was acknowledged,
/// a view could stand for the table.
/// </summary>
internal static class LedgerTables
{
    /// <summary>The one form of version 1, which all kept ledgers have. Another form gets another version, and is listed beside it.</summary>
    private static readonly Lazy<Dictionary<string, string>> Known = new(() =>
    {
        using var fresh = new SqliteConnection("Data Source=:memory:");
        fresh.Open();
        LedgerFile.Execute(fresh, LedgerFile.Schema);
        return Objects(fresh);
    });

    /// <summary>What is not as the service makes it, in words.</summary>
    public static List<string> Faults(SqliteConnection connection)
    {
        var (expected, found) = (Known.Value, Objects(connection));
        return
        [
            .. expected.Where(e => !found.ContainsKey(e.Key)).Select(e => $"{e.Key} is not there"),
            .. expected.Where(e => found.TryGetValue(e.Key, out var text) && text != e.Value)
                .Select(e => $"{e.Key} is not as the service makes it: {found[e.Key]}"),
            .. found.Keys.Except(expected.Keys).Order(StringComparer.Ordinal).Select(n => $"{n} does not belong into a ledger"),
        ];
    }

    /// <summary>Whether the indexes are as the service makes them.</summary>
    public static bool HasIndexes(SqliteConnection connection)
    {
        var found = Objects(connection);
        return Known.Value.All(e => !e.Key.StartsWith("index ", StringComparison.Ordinal) || found.GetValueOrDefault(e.Key) == e.Value);
    }

    /// <summary>Refuses a file that has anything else.</summary>
    /// <param name="connection">The ledger.</param>
    /// <param name="path">Its file.</param>
    /// <exception cref="ForeignTablesException">It has.</exception>
    public static void Require(SqliteConnection connection, string path)
    {
        if (Faults(connection) is [_, ..] faults)
        {
            throw new ForeignTablesException(
                $"{path} is not written, since another program changed its tables: {string.Join("; ", faults)}. "
                + "Find out who did that, run stockseat ledger verify, and take the change back with a tool for SQLite, "
                + "or put a copy of the ledger in its place");
        }
    }

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
