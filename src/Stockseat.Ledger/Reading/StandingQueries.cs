using Microsoft.Data.Sqlite;
using Stockseat.Answers.Measured;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Reading;

/// <summary>Finds the entries on which the situation rests by the indexes of tables of version 1, where no snapshot carries them.</summary>
public static class StandingQueries
{
    /// <summary>
    /// The newest refused push of a fixture that voids its measurement, above a serial and up to another one; see <see cref="VoidingPush.Is"/>.
    /// </summary>
    internal static List<EntryRow> RefusedPush(SqliteConnection connection, string fixture, long above, long upTo) => LedgerQueries.Read(
        connection,
        $"{LedgerQueries.Columns} WHERE {LedgerQueries.RefusedPushes} AND instr(body, '\"asked\":\"measured\",\"reason\":\"fixture-unknown\"') = 0"
        + " AND (instr(body, '\"asked\":\"measured\",\"reason\":\"measurement-stale\"') = 0 OR json_extract(body, '$.measurement') IS NULL)"
        + " AND fixture = $fixture AND serial > $above AND serial <= $upTo ORDER BY serial DESC LIMIT 1",
        ("$fixture", fixture), ("$above", above), ("$upTo", upTo));

    /// <summary>
    /// The last entry of version 1 up to a serial; 0 when there is none. Once a program has written version 2, none that writes version 1 writes there again.
    /// </summary>
    internal static long LastOfVersion1(SqliteConnection connection, long upTo)
    {
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT serial, substr(body, 1, 7) = '{\"v\":1,' FROM entry WHERE serial <= $upTo ORDER BY serial DESC LIMIT 1";
        var parameter = command.Parameters.AddWithValue("$upTo", 0L);
        var (low, high) = (0L, upTo); // What is at low or below is of version 1; what is above high is not.
        while (low < high)
        {
            var middle = high - ((high - low) / 2);
            parameter.Value = middle;
            using var reader = command.ExecuteReader();
            if (!reader.Read() || reader.GetInt64(0) <= low)
            {
                low = middle; // There is no entry in between.
                continue;
            }

            (low, high) = reader.GetBoolean(1) ? (middle, high) : (low, reader.GetInt64(0) - 1);
        }

        return low;
    }

    /// <summary>An entry whose body is broken is not skipped, so that its reader reports it.</summary>
    private const string Counts = "CASE WHEN json_valid(body) THEN json_extract(body, '$.confirms') > $above ELSE 1 END";

    /// <summary>The newest confirmation, above a serial and up to another one, of an answer above the first; by the index that leaves answers out.</summary>
    internal static EntryRow? Confirmation(SqliteConnection connection, string fixture, long above, long upTo) => LedgerQueries.Read(
        connection,
        $"{LedgerQueries.Columns} WHERE {LedgerQueries.InStanding} AND fixture = $fixture AND kind = 'confirmation' AND serial > $above AND serial <= $upTo"
        + $" AND {Counts} ORDER BY serial DESC LIMIT 1",
        ("$fixture", fixture), ("$above", above), ("$upTo", upTo)).FirstOrDefault();

    /// <summary>The newest such confirmation with this purpose, if it is among a given number of the newest ones.</summary>
    internal static EntryRow? Confirmation(SqliteConnection connection, string fixture, string purpose, long above, long upTo, int count) => LedgerQueries.Read(
        connection,
        $"{LedgerQueries.Columns} WHERE serial = (SELECT max(serial) FROM (SELECT serial, body FROM entry"
        + $" WHERE {LedgerQueries.InStanding} AND fixture = $fixture AND kind = 'confirmation'"
        + " AND serial > $above AND serial <= $upTo ORDER BY serial DESC LIMIT $count)"
        + $" WHERE instr(body, $purpose) > 0 AND {Counts})",
        ("$fixture", fixture), ("$purpose", $"\"purpose\":\"{purpose}\""), ("$above", above), ("$upTo", upTo), ("$count", count)).FirstOrDefault();

    /// <summary>The newest entries of a fixture and kind up to a serial, the newest first; by the same index.</summary>
    internal static List<EntryRow> NewestOf(SqliteConnection connection, string fixture, string kind, long upTo, int count) => LedgerQueries.Read(
        connection,
        $"{LedgerQueries.Columns} WHERE {LedgerQueries.InStanding} AND fixture = $fixture AND kind = $kind AND serial <= $upTo"
        + " ORDER BY serial DESC LIMIT $count",
        ("$fixture", fixture), ("$kind", kind), ("$upTo", upTo), ("$count", count));

    /// <summary>
    /// The newest recheck of a fixture, above a serial and up to another one, that missed, and the newest of those that refuse asks; by the same index.
    /// </summary>
    internal static IEnumerable<EntryRow> Misses(SqliteConnection connection, string fixture, long above, long upTo)
    {
        List<EntryRow> Newest(string which) => LedgerQueries.Read(
            connection,
            $"{LedgerQueries.Columns} WHERE {LedgerQueries.InStanding} AND fixture = $fixture AND kind = 'recheck'"
            + $" AND serial > $above AND serial <= $upTo AND {which} ORDER BY serial DESC LIMIT 1",
            ("$fixture", fixture), ("$above", above), ("$upTo", upTo));
        // A quote within a text of a body is escaped, so no text can be mistaken for a key.
        const string Missed = "instr(body, '\"passed\":false') > 0";
        return Newest(Missed).Concat(Newest($"{Missed} AND instr(body, '\"refuseAfterMiss\":true') > 0")).DistinctBy(r => r.Serial);
    }

    /// <summary>Finds the newest step of the clock up to a serial, by the same index.</summary>
    public const string NewestStepSql =
        $"{LedgerQueries.Columns} WHERE {LedgerQueries.InStanding} AND fixture IS NULL AND kind = 'clock-step'"
        + " AND serial <= $upTo ORDER BY serial DESC LIMIT 1";

    /// <summary>The newest step of the clock up to a serial; null when the clock was never set.</summary>
    internal static EntryRow? NewestStep(SqliteConnection connection, long upTo) =>
        LedgerQueries.Read(connection, NewestStepSql, ("$upTo", upTo)).FirstOrDefault();

    /// <summary>The descriptions of lots up to a serial, in order; by the same index, in which entries without a fixture come first.</summary>
    internal static List<EntryRow> Lots(SqliteConnection connection, long upTo) => LedgerQueries.Read(
        connection,
        $"{LedgerQueries.Columns} WHERE {LedgerQueries.InStanding} AND fixture IS NULL AND kind = 'lot-described' AND serial <= $upTo ORDER BY serial",
        ("$upTo", upTo));

    /// <summary>The next fixture in the index; null after the last one.</summary>
    internal static string? NextFixture(SqliteConnection connection, string? fixture)
    {
        using var command = connection.CreateCommand();
        command.CommandText = $"SELECT min(fixture) FROM entry WHERE {LedgerQueries.InStanding} AND fixture > $fixture";
        command.Parameters.AddWithValue("$fixture", fixture ?? "");
        return command.ExecuteScalar() as string;
    }

    /// <summary>The next fixture among those with refused pushes; null after the last one.</summary>
    internal static string? NextRefused(SqliteConnection connection, string? fixture)
    {
        using var command = connection.CreateCommand();
        command.CommandText = $"SELECT min(fixture) FROM entry WHERE {LedgerQueries.RefusedPushes} AND fixture > $fixture";
        command.Parameters.AddWithValue("$fixture", fixture ?? "");
        return command.ExecuteScalar() as string;
    }
}
