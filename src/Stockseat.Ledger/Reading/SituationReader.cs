using Microsoft.Data.Sqlite;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;
using Stockseat.Answers.Roll;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Reading;

/// <summary>Finds the situation after an entry of a ledger: from the newest snapshot before it and the entries that follow that snapshot.</summary>
public static class SituationReader
{
    private const int Piece = 10_000;

    /// <summary>The situation after the last entry.</summary>
    /// <param name="connection">The ledger.</param>
    /// <exception cref="InvalidDataException">The values of a revision do not give its digest.</exception>
    public static Situation Read(SqliteConnection connection) => Carried(connection, long.MaxValue).Situation(Begins(connection, long.MaxValue));

    /// <summary>The situation right after an entry: the same as applying all entries of this ledger up to it, in their order.</summary>
    /// <param name="connection">The ledger.</param>
    /// <param name="upTo">The entry.</param>
    /// <param name="read">Reads the revision that an entry adopts; null when its values do not give its digest.</param>
    /// <exception cref="System.Text.Json.JsonException">This version does not know an entry on which the situation rests.</exception>
    public static Situation Read(SqliteConnection connection, long upTo, Func<IAdoption, Revision?> read) =>
        Carried(connection, upTo, read).Situation(Begins(connection, upTo));

    /// <summary>The entries on which the situation after an entry rests; some of them may not count any more.</summary>
    /// <param name="connection">The ledger.</param>
    /// <param name="upTo">The entry.</param>
    /// <param name="read">Reads the revision that an entry adopts; null: when its values do not give its digest, an exception is thrown.</param>
    public static CarriedEntries Carried(SqliteConnection connection, long upTo, Func<IAdoption, Revision?>? read = null)
    {
        upTo = Math.Min(upTo, LedgerQueries.Last(connection));
        var snapshot = LedgerQueries.NewestSnapshot(connection, upTo);
        if (LedgerTables.VersionOf(connection) == LedgerTables.Oldest && !(upTo - snapshot <= LedgerQueries.LongestScan)
            && !(snapshot > StandingQueries.LastOfVersion1(connection, upTo)))
        {
            return Indexed(connection, upTo, read);
        }

        // A snapshot that can't be read gives nothing: then everything is read from the beginning.
        return (snapshot is { } from ? From(connection, from, upTo, read) : null) ?? From(connection, null, upTo, read)!;
    }

    /// <summary>The first entry of a ledger that continues another one, if it lies within the range; 1 for any other ledger.</summary>
    public static long Begins(SqliteConnection connection, long upTo)
    {
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT serial FROM entry WHERE serial = (SELECT min(serial) FROM entry) AND serial <= $upTo AND kind = 'rolled-over'";
        command.Parameters.AddWithValue("$upTo", upTo);
        return command.ExecuteScalar() as long? ?? 1;
    }

    /// <summary>The result of the entries from a given one on; null when that one is a snapshot that can't be read.</summary>
    /// <param name="connection">The ledger.</param>
    /// <param name="snapshot">The snapshot; null: begin with the first entry of the ledger.</param>
    /// <param name="upTo">The last entry.</param>
    /// <param name="read">Reads the revision that an entry adopts.</param>
    public static CarriedEntries? From(SqliteConnection connection, long? snapshot, long upTo, Func<IAdoption, Revision?>? read)
    {
        var carried = new CarriedEntries(read);
        return AddFrom(carried, connection, snapshot ?? long.MinValue, upTo, snapshot) ? carried : null;
    }

    /// <summary>Adds the entries from a serial on; false when one of them is a given snapshot that can't be read.</summary>
    private static bool AddFrom(CarriedEntries carried, SqliteConnection connection, long first, long upTo, long? snapshot = null)
    {
        using var rows = EntryScan.Upwards(connection);
        for (long? next = first; next is { } from;)
        {
            next = null; // Read until a piece is full, so that no read is long.
            rows.Begin(from, upTo, Piece);
            for (var count = 1; rows.Step(out var row); count++)
            {
                carried.Add(row);
                if (row.Serial == snapshot && carried.Since > 0)
                {
                    return false;
                }

                next = count == Piece && row.Serial < upTo ? row.Serial + 1 : null;
            }
        }

        return true;
    }

    /// <summary>
    /// The entries found by the indexes of tables of version 1, for a ledger without snapshots. No index finds what entries of version 2 lead to: these are
    /// read one after the other. There are few, since the program that writes them writes snapshots too.
    /// </summary>
    /// <param name="connection">The ledger.</param>
    /// <param name="upTo">The last entry.</param>
    /// <param name="read">Reads the revision that an entry adopts.</param>
    public static CarriedEntries Indexed(SqliteConnection connection, long upTo, Func<IAdoption, Revision?>? read)
    {
        var carried = new CarriedEntries(read);
        var older = StandingQueries.LastOfVersion1(connection, upTo);
        foreach (var row in new IndexedEntries(connection, older).Rows())
        {
            carried.Add(row);
        }

        AddFrom(carried, connection, older + 1, upTo);
        carried.HasMany();
        return carried;
    }
}
