using Microsoft.Data.Sqlite;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Verifying;

/// <summary>Checks the other direction: entries that the partial indexes have and the rows do not, and objects beside the table.</summary>
internal static class LedgerIndexes
{
    public const string OfStanding = "entry_standing";
    public const string OfRefusedPushes = "entry_refused_push";

    private const int Piece = 5000;

    /// <summary>Reports objects that are not as the service makes them; returns whether the indexes are.</summary>
    public static bool CheckTables(SqliteConnection connection, FaultList faults)
    {
        foreach (var fault in LedgerTables.Faults(connection))
        {
            faults.Add(0, FaultKinds.Tables, fault);
        }

        return LedgerTables.HasIndexes(connection);
    }

    /// <summary>Compares the number of entries in an index with the number of rows that belong in it, and names the entries that do not belong.</summary>
    public static void CheckCounts(SqliteConnection connection, long head, long standing, long refused, FaultList faults, CancellationToken token)
    {
        Check(OfStanding, LedgerQueries.InStanding, standing);
        if (LedgerTables.VersionOf(connection) == LedgerTables.Oldest)
        {
            Check(OfRefusedPushes, LedgerQueries.RefusedPushes, refused);
        }

        void Check(string index, string which, long rows)
        {
            try
            {
                var held = Entries(connection, index, which, head, token).LongCount();
                if (held != rows)
                {
                    NameStrangers(connection, index, which, head, faults, token);
                    faults.Add(0, FaultKinds.Index,
                        $"the index {index} has {held} entries, but {rows} rows belong in it: it was changed separately from the table");
                }
            }
            catch (Exception e) when (LedgerVerifier.IsDamage(e))
            {
                faults.Add(0, FaultKinds.Index, $"the index {index} can't be read: {e.Message}");
            }
        }
    }

    private static void NameStrangers(SqliteConnection connection, string index, string which, long head, FaultList faults, CancellationToken token)
    {
        foreach (var (fixture, kind, serial) in Entries(connection, index, which, head, token))
        {
            using var command = connection.CreateCommand();
            command.CommandText =
                $"SELECT count(*) FROM entry NOT INDEXED WHERE serial = $serial AND fixture IS $fixture AND ($kind IS NULL OR kind = $kind) AND {which}";
            Bind(command, ("$serial", serial), ("$fixture", fixture), ("$kind", kind));
            if ((long)command.ExecuteScalar()! == 0)
            {
                faults.Add(serial, FaultKinds.Index,
                    $"the index {index} holds entry {serial} as {kind ?? "a refused push"} of {fixture ?? "no fixture"}, but no row says so");
            }
        }
    }

    /// <summary>All entries of an index up to the last serial, in short reads.</summary>
    private static IEnumerable<(string? Fixture, string? Kind, long Serial)> Entries(SqliteConnection connection, string index, string which, long head,
        CancellationToken token)
    {
        var kind = index == OfStanding ? "kind" : "''"; // The other index has no kind.
        var fixtures = new HashSet<string>();
        for (string? fixture = null; ;)
        {
            for (var (after, above) = ("", long.MinValue); ;)
            {
                token.ThrowIfCancellationRequested();
                var piece = Keys(connection,
                    $"SELECT {kind}, serial FROM entry INDEXED BY {index} WHERE {which} AND fixture IS $fixture AND ({kind}, serial) > ($after, $above) "
                    + $"ORDER BY {kind}, serial LIMIT {Piece}",
                    ("$fixture", fixture), ("$after", after), ("$above", above));
                foreach (var (k, serial) in piece.Where(p => p.Serial <= head))
                {
                    yield return (fixture, k.Length == 0 ? null : k, serial);
                }

                if (piece.Count < Piece)
                {
                    break;
                }

                if (string.CompareOrdinal(piece[^1].Kind, after) is var order && (order < 0 || (order == 0 && piece[^1].Serial <= above)))
                {
                    throw new InvalidDataException("it is not in order"); // Otherwise the same entries would be read again and again.
                }

                (after, above) = piece[^1];
            }

            using var next = connection.CreateCommand();
            next.CommandText = $"SELECT min(fixture) FROM entry INDEXED BY {index} WHERE {which} AND ($fixture IS NULL OR fixture > $fixture)";
            Bind(next, ("$fixture", fixture));
            if ((fixture = next.ExecuteScalar() as string) is null)
            {
                yield break;
            }

            if (!fixtures.Add(fixture))
            {
                throw new InvalidDataException("it is not in order");
            }
        }
    }

    private static List<(string Kind, long Serial)> Keys(SqliteConnection connection, string sql, params (string Name, object? Value)[] values)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        Bind(command, values);
        using var reader = command.ExecuteReader();
        var keys = new List<(string, long)>();
        while (reader.Read())
        {
            keys.Add((reader.GetString(0), reader.GetInt64(1)));
        }

        return keys;
    }

    private static void Bind(SqliteCommand command, params (string Name, object? Value)[] values)
    {
        foreach (var (name, value) in values)
        {
            command.Parameters.AddWithValue(name, value ?? DBNull.Value);
        }
    }
}
