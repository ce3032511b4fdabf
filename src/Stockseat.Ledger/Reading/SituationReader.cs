using Microsoft.Data.Sqlite;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;
using Stockseat.Answers.Roll;
using Stockseat.Answers.State;
using Stockseat.Answers.Verbs;
using Stockseat.Fixtures.Revisions;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Reading;

/// <summary>Finds what holds for every fixture after an entry of a ledger, without reading all before it.</summary>
/// <param name="connection">The ledger.</param>
/// <param name="upTo">The last entry that counts.</param>
public sealed class SituationReader(SqliteConnection connection, long upTo)
{
    /// <summary>How many confirmations a start looks through for that of the other purpose, which newer entries name. Not found: the next answer is a first one.</summary>
    private const int Confirmations = 200;

    /// <summary>What holds after the last entry.</summary>
    /// <param name="connection">The ledger.</param>
    /// <exception cref="InvalidDataException">The content of a revision does not read back to its digest.</exception>
    public static Situation Read(SqliteConnection connection)
    {
        var reader = new SituationReader(connection, long.MaxValue);
        return Applying.All(reader.Bodies(Confirmations));
    }

    /// <summary>What held right after an entry: the same as all entries of this ledger up to it make, applied in their order.</summary>
    /// <param name="connection">The ledger.</param>
    /// <param name="upTo">The entry.</param>
    /// <param name="read">Reads the revision that an entry adopts; null when it does not read back to its digest.</param>
    /// <exception cref="System.Text.Json.JsonException">An entry that it rests on is none that this version knows.</exception>
    public static Situation Read(SqliteConnection connection, long upTo, Func<IAdoption, Revision?> read)
    {
        var reader = new SituationReader(connection, upTo);
        return Applying.All(reader.Bodies(int.MaxValue), read);
    }

    /// <summary>The entries that what holds comes from, also those that this ledger's beginning carries; some of them may hold no more.</summary>
    internal static IEnumerable<EntryBody> Entries(SqliteConnection connection)
    {
        var reader = new SituationReader(connection, long.MaxValue);
        var begin = reader.Beginning();
        return [.. begin?.ReadCarried() ?? [], .. reader.Standing(begin, Confirmations)];
    }

    private IEnumerable<EntryBody> Bodies(int confirmations)
    {
        var begin = Beginning();
        return begin is null ? Standing(null, confirmations) : Standing(begin, confirmations).Prepend(begin);
    }

    /// <summary>The entry that a ledger begins with which goes on after another one; null when it is the first.</summary>
    private RolledOverBody? Beginning() =>
        LedgerQueries.First(connection) is { Kind: Kinds.RolledOver } first && first.Serial <= upTo && Body(first) is RolledOverBody { IsEnd: false } body ? body : null;

    private IEnumerable<EntryBody> Standing(RolledOverBody? begin, int confirmations)
    {
        var carried = (begin?.ReadCarried() ?? []).Where(b => b.Fixture is not null).ToLookup(b => b.Fixture!);
        if (NewestStepBack() is { } back)
        {
            yield return back;
        }

        // A fixture of which this ledger has only refused pushes is not in that index, and one of them may void what is carried.
        foreach (var fixture in Fixtures().Union(carried.Select(c => c.Key)))
        {
            var adopted = carried[fixture].OfType<RevisionAdoptedBody>().Select(b => b.Serial).DefaultIfEmpty(0).Max();
            foreach (var row in Rows(fixture, adopted, confirmations).OrderBy(r => r.Serial))
            {
                yield return Body(row);
            }
        }

        foreach (var row in LedgerQueries.Lots(connection, upTo))
        {
            yield return Body(row);
        }
    }

    private IEnumerable<string> Fixtures()
    {
        for (var fixture = LedgerQueries.NextFixture(connection, null); fixture is not null; fixture = LedgerQueries.NextFixture(connection, fixture))
        {
            yield return fixture;
        }
    }

    /// <summary>Two rows at most, however often the clock was set: only the newest step back matters, and a step forward names it.</summary>
    private ClockStepBody? NewestStepBack()
    {
        var step = LedgerQueries.NewestStep(connection, upTo)?.ReadBody() as ClockStepBody;
        return step?.LastBack is { } serial ? LedgerQueries.Find(connection, serial)?.ReadBody() as ClockStepBody : step;
    }

    private IEnumerable<EntryRow> Rows(string fixture, long carried, int confirmations)
    {
        List<EntryRow> Find(string kind, int count) => LedgerQueries.Standing(connection, fixture, kind, upTo, count);
        var adopted = Find(Kinds.RevisionAdopted, int.MaxValue);
        var measured = Find(Kinds.Measurement, 1).Concat(Find(Kinds.Emptied, 1)).ToList();
        var last = measured.Select(r => r.Serial).DefaultIfEmpty(0).Max();
        return adopted
            .Concat(Find(Kinds.RevisionRejected, 1))
            .Concat(Find(Kinds.Held, int.MaxValue))
            .Concat(Find(Kinds.Released, int.MaxValue))
            .Concat(measured)
            .Concat(LedgerQueries.Misses(connection, fixture, adopted.Find(r => r.Revision != adopted[0].Revision)?.Serial ?? 0, upTo))
            .Concat(LedgerQueries.RefusedPush(connection, fixture, last, upTo))
            .Concat(Confirmed(fixture, adopted.Count > 0 ? adopted[0].Serial : carried, confirmations));
    }

    /// <summary>The newest confirmation, and the one of the other purpose that it names; what it does not name, an older version may have left out.</summary>
    private IEnumerable<EntryRow> Confirmed(string fixture, long adoptedBy, int count)
    {
        if (LedgerQueries.Confirmation(connection, fixture, adoptedBy, upTo) is not { } newest || Body(newest) is not ConfirmationBody body)
        {
            return [];
        }

        // One that is not in this ledger is carried by its beginning; 0 is none.
        var other = body.Other is { } serial
            ? (serial == 0 ? null : LedgerQueries.Find(connection, serial))
            : LedgerQueries.Confirmation(connection, fixture, body.Purpose == "place" ? "pick" : "place", adoptedBy, upTo, count);
        return other is null ? [newest] : [other, newest];
    }

    private static EntryBody Body(EntryRow row) =>
        row.ReadBody() ?? throw new System.Text.Json.JsonException($"entry {row.Serial} is of kind {row.Kind}, which is not known here");
}
