using Microsoft.Data.Sqlite;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Reading;

/// <summary>The reads of a review: the minutes around an instant, and the entries right before and after them.</summary>
internal static class WindowQueries
{
    /// <summary>How many entries of a time lie between two serials.</summary>
    internal static long Count(SqliteConnection connection, long above, long last, EntryFilter times)
    {
        using var command = connection.CreateCommand();
        command.CommandText =
            "SELECT count(*) FROM entry WHERE serial > $above AND serial <= $last AND ($from IS NULL OR at >= $from) AND ($to IS NULL OR at < $to)";
        command.Parameters.AddWithValue("$above", above);
        command.Parameters.AddWithValue("$last", last);
        command.Parameters.AddWithValue("$from", (object?)LedgerQueries.Text(times.From) ?? DBNull.Value);
        command.Parameters.AddWithValue("$to", (object?)LedgerQueries.Text(times.To) ?? DBNull.Value);
        return (long)command.ExecuteScalar()!;
    }

    /// <summary>The first confirmations of a fixture above a serial; by the index that leaves answers out.</summary>
    internal static List<EntryRow> Confirmations(SqliteConnection connection, string fixture, long above, int count) => [.. LedgerQueries.Stream(
        connection,
        $"{LedgerQueries.Columns} WHERE {LedgerQueries.InStanding} AND fixture = $fixture AND kind = 'confirmation' AND serial > $above ORDER BY serial "
        + $"LIMIT $count",
        ("$fixture", fixture), ("$above", above), ("$count", count))];

    /// <summary>The newest entry of a fixture and kind up to a serial; by the same index.</summary>
    internal static EntryRow? NewestOf(SqliteConnection connection, string fixture, string kind, long upTo) => LedgerQueries.Stream(
        connection,
        $"{LedgerQueries.Columns} WHERE {LedgerQueries.InStanding} AND fixture = $fixture AND kind = $kind AND serial <= $upTo ORDER BY serial DESC LIMIT 1",
        ("$fixture", fixture), ("$kind", kind), ("$upTo", upTo)).FirstOrDefault();

    /// <summary>The newest entries of a fixture and kind between two serials, the newest first; by the same index.</summary>
    internal static IEnumerable<EntryRow> Of(SqliteConnection connection, string fixture, string kind, long above, long below, int count) =>
        LedgerQueries.Stream(
        connection,
        $"{LedgerQueries.Columns} WHERE {LedgerQueries.InStanding} AND fixture = $fixture AND kind = $kind AND serial > $above AND serial < $below ORDER BY "
        + $"serial DESC LIMIT $count",
        ("$fixture", fixture), ("$kind", kind), ("$above", above), ("$below", below), ("$count", count));

    /// <summary>The steps of the clock between two serials, by the same index.</summary>
    internal static List<EntryRow> ClockSteps(SqliteConnection connection, long above, long last) => [.. LedgerQueries.Stream(
        connection,
        $"{LedgerQueries.Columns} WHERE {LedgerQueries.InStanding} AND fixture IS NULL AND kind = 'clock-step' AND serial > $above AND serial <= $last ORDER "
        + $"BY serial",
        ("$above", above), ("$last", last))];

    /// <summary>The newest entry of a time between two serials; null when there is none.</summary>
    internal static EntryRow? Newest(SqliteConnection connection, long above, long last, EntryFilter times) => LedgerQueries.Stream(
        connection,
        $"{LedgerQueries.Columns} WHERE serial > $above AND serial <= $last AND ($from IS NULL OR at >= $from) AND ($to IS NULL OR at < $to) ORDER BY serial "
        + $"DESC LIMIT 1",
        ("$above", above), ("$last", last), ("$from", LedgerQueries.Text(times.From)), ("$to", LedgerQueries.Text(times.To))).FirstOrDefault();
}
