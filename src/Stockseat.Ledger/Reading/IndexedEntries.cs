using Microsoft.Data.Sqlite;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;
using Stockseat.Answers.Roll;
using Stockseat.Answers.Verbs;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Reading;

/// <summary>
/// Finds the entries on which the situation rests by the indexes of tables of version 1, without reading all earlier entries: a ledger of an older program has
/// no snapshot.
/// </summary>
/// <param name="connection">The ledger.</param>
/// <param name="upTo">The last entry that counts.</param>
internal sealed class IndexedEntries(SqliteConnection connection, long upTo)
{
    /// <summary>The rows, in their order; in a ledger that continues another one, its first entry is among them.</summary>
    public IReadOnlyList<EntryRow> Rows()
    {
        var first = LedgerQueries.First(connection) is { Kind: Kinds.RolledOver } row
            && row.Serial <= upTo && Body(row) is RolledOverBody { IsEnd: false } ? row : null;
        var carried = ((first is null ? null : (RolledOverBody)Body(first))?.ReadCarried() ?? []).Where(b => b.Fixture is not null).ToLookup(b => b.Fixture!);
        var all = new List<EntryRow>();
        foreach (var fixture in Names(StandingQueries.NextFixture).Union(Names(StandingQueries.NextRefused)).Union(carried.Select(c => c.Key)).ToList())
        {
            all.AddRange(Of(fixture, carried[fixture].OfType<RevisionAdoptedBody>().Select(b => b.Serial).DefaultIfEmpty(0).Max()));
        }

        all.AddRange(NewestStepBack());
        all.AddRange(StandingQueries.Lots(connection, upTo));
        return [.. new[] { first }.OfType<EntryRow>(), .. all.OrderBy(r => r.Serial)];
    }

    private IEnumerable<string> Names(Func<SqliteConnection, string?, string?> next)
    {
        for (var fixture = next(connection, null); fixture is not null; fixture = next(connection, fixture))
        {
            yield return fixture;
        }
    }

    /// <summary>At most two rows, however often the clock was set: only the newest step back matters, and a step forward names it.</summary>
    private IEnumerable<EntryRow> NewestStepBack()
    {
        var row = StandingQueries.NewestStep(connection, upTo);
        var back = (row?.ReadBody() as ClockStepBody)?.LastBack is { } serial ? LedgerQueries.Find(connection, serial) : row;
        return back is null ? [] : [back];
    }

    private IEnumerable<EntryRow> Of(string fixture, long carried)
    {
        List<EntryRow> Find(string kind, int count) => StandingQueries.NewestOf(connection, fixture, kind, upTo, count);
        var adopted = Find(Kinds.RevisionAdopted, int.MaxValue);
        var measured = Find(Kinds.Measurement, 1).Concat(Find(Kinds.Emptied, 1)).ToList();
        var last = measured.Select(r => r.Serial).DefaultIfEmpty(0).Max();
        return adopted
            .Concat(Find(Kinds.RevisionRejected, 1))
            .Concat(Find(Kinds.Held, int.MaxValue))
            .Concat(Find(Kinds.Released, int.MaxValue))
            .Concat(measured)
            .Concat(StandingQueries.Misses(connection, fixture, adopted.Find(r => r.Revision != adopted[0].Revision)?.Serial ?? 0, upTo))
            .Concat(StandingQueries.RefusedPush(connection, fixture, last, upTo))
            .Concat(Confirmed(fixture, adopted.Count > 0 ? adopted[0].Serial : carried));
    }

    /// <summary>
    /// The newest confirmation, and the one of the other purpose that it names. When it names none, that may be because an older version did not record it.
    /// </summary>
    private IEnumerable<EntryRow> Confirmed(string fixture, long adoptedBy)
    {
        if (StandingQueries.Confirmation(connection, fixture, adoptedBy, upTo) is not { } newest || Body(newest) is not ConfirmationBody body)
        {
            return [];
        }

        // A confirmation that is not in this ledger is carried by its first entry; 0 means that there is none.
        var other = body.Other is { } serial
            ? (serial == 0 ? null : LedgerQueries.Find(connection, serial))
            : StandingQueries.Confirmation(connection, fixture, body.Purpose == "place" ? "pick" : "place", adoptedBy, upTo, int.MaxValue);
        return other is null ? [newest] : [other, newest];
    }

    private static EntryBody Body(EntryRow row) =>
        row.ReadBody() ?? throw new System.Text.Json.JsonException($"entry {row.Serial} is of kind {row.Kind}, which this version does not know");
}
