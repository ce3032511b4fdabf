using Microsoft.Data.Sqlite;
using Stockseat.Answers.Deciding;
using Stockseat.Answers.Records;

namespace Stockseat.Ledger.Queries;

/// <summary>Finds what holds for every fixture from the ledger, without reading it all.</summary>
internal static class SituationReader
{
    /// <summary>How many confirmations are looked through for the last one of each purpose. Not found: the next answer is a first one.</summary>
    private const int Confirmations = 200;

    public static Situation Read(SqliteConnection connection, long upTo) => // TEMPORARY
        LedgerQueries.After(connection, 0, int.MaxValue, null, upTo).Aggregate(Situation.Empty, (s, r) => s.Apply(r.ReadBody()!));

    public static Situation Read(SqliteConnection connection) =>
        (Beginning(connection) is { } begin ? Standing(connection).Prepend(begin) : Standing(connection)).Aggregate(Situation.Empty, (situation, body) => situation.Apply(body));

    /// <summary>The entries that what holds comes from, also those that this ledger's beginning carries; some of them may hold no more.</summary>
    public static IEnumerable<EntryBody> Entries(SqliteConnection connection) => [.. Beginning(connection)?.ReadCarried() ?? [], .. Standing(connection)];

    /// <summary>The entry that a ledger begins with which goes on after another one; null when it is the first.</summary>
    public static RolledOverBody? Beginning(SqliteConnection connection) =>
        LedgerQueries.First(connection) is { Kind: Kinds.RolledOver } first && first.ReadBody() is RolledOverBody { IsEnd: false } body ? body : null;

    private static IEnumerable<EntryBody> Standing(SqliteConnection connection)
    {
        if (NewestStepBack(connection) is { } back)
        {
            yield return back;
        }

        for (var fixture = LedgerQueries.NextFixture(connection, null); fixture is not null; fixture = LedgerQueries.NextFixture(connection, fixture))
        {
            foreach (var row in Rows(connection, fixture).OrderBy(r => r.Serial))
            {
                yield return row.ReadBody()!;
            }
        }

        foreach (var row in LedgerQueries.Lots(connection))
        {
            yield return row.ReadBody()!;
        }
    }

    /// <summary>Two rows at most, however often the clock was set: only the newest step back matters, and a step forward names it.</summary>
    private static ClockStepBody? NewestStepBack(SqliteConnection connection)
    {
        var step = LedgerQueries.NewestStep(connection)?.ReadBody() as ClockStepBody;
        return step?.LastBack is { } serial ? LedgerQueries.Find(connection, serial)?.ReadBody() as ClockStepBody : step;
    }

    private static IEnumerable<EntryRow> Rows(SqliteConnection connection, string fixture)
    {
        List<EntryRow> Find(string kind, long above, int count) => LedgerQueries.Standing(connection, fixture, kind, above, count);
        var adopted = Find(Kinds.RevisionAdopted, 0, int.MaxValue);
        List<EntryRow> Confirmed(string purpose) =>
            LedgerQueries.Confirmation(connection, fixture, purpose, adopted.Count == 0 ? 0 : adopted[0].Serial, Confirmations);
        var measured = Find(Kinds.Measurement, 0, 1).Concat(Find(Kinds.Emptied, 0, 1)).ToList();
        var last = measured.Select(r => r.Serial).DefaultIfEmpty(0).Max();
        return adopted
            .Concat(Find(Kinds.RevisionRejected, 0, 1))
            .Concat(Find(Kinds.Held, 0, int.MaxValue))
            .Concat(Find(Kinds.Released, 0, int.MaxValue))
            .Concat(measured)
            .Concat(LedgerQueries.Misses(connection, fixture, adopted.Find(r => r.Revision != adopted[0].Revision)?.Serial ?? 0))
            .Concat(LedgerQueries.RefusedPush(connection, fixture, last))
            .Concat(Confirmed("pick"))
            .Concat(Confirmed("place"));
    }
}
