using CsCheck;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Replaying;
using Stockseat.Answers.State;
using Stockseat.Answers.Verbs;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Tests.Rolling;
using Stockseat.Ledger.Tests.Support;
using TestLedger = Stockseat.Ledger.Tests.Support.Ledger;

namespace Stockseat.Audit.Tests.Replaying;

/// <summary>
/// Whatever happened, and wherever a ledger ends: the newest snapshot, all entries from the beginning, the indexes of older tables and all entries one after
/// the other lead to the same situation.
/// </summary>
public sealed class RandomStartTests
{
    [Fact]
    public async Task The_situation_is_the_same_whichever_way_it_is_read()
    {
        var (places, snapshots) = (0, 0);
        await Gen.Select(Gen.Select(Gen.Int[0, 28], Gen.Double[0, 1]).Array[30, 70], Gen.Int[2, 12], Gen.Bool, Gen.Double[0, 1]).SampleAsync(
            async made =>
            {
                var (happenings, every, old, cut) = made;
                var time = new SteppedTime();
                using var ledger = new TestLedger(time)
                    { Fixture = Varied.Folder(Varied.File(1)), SnapshotEvery = every, Tables = old ? 1 : LedgerFile.SchemaVersion };
                await ledger.Begin();
                foreach (var (what, much) in happenings)
                {
                    await RandomReplayTests.Happens(ledger, time, what, much);
                }

                await ledger.Close();
                Assert.Empty(ledger.Verify().Faults);
                foreach (var path in ClosedLedgers.Of(ledger.Folder).Select(f => f.Path).Append(ledger.File))
                {
                    var (seen, written) = EachPlace(path);
                    Interlocked.Add(ref places, seen);
                    Interlocked.Add(ref snapshots, written);
                }

                if (old)
                {
                    Interlocked.Add(ref places, ByIndexes(ledger.File, cut));
                }

                await StartsWhereItIsCut(ledger, time, cut);
            },
            iter: 12);

        Assert.True(places > 300 && snapshots > 50, $"{places} places, {snapshots} snapshots");
    }

    private static (int Places, int Snapshots) EachPlace(string path)
    {
        using var connection = LedgerFile.OpenClosed(path);
        var (applied, revisions, seen, snapshots) = (Situation.Empty, new AdoptedRevisions(), 0, 0);
        foreach (var row in LedgerQueries.After(connection, 0, int.MaxValue))
        {
            applied = applied.Apply(row.ReadBody()!, revisions.Read);
            var begins = SituationReader.Begins(connection, row.Serial);

            Assert.Equal((row.Serial, applied.Text()), (row.Serial, SituationReader.Read(connection, row.Serial, revisions.Read).Text()));
            Assert.Equal(applied.Text(), SituationReader.From(connection, null, row.Serial, revisions.Read)!.Situation(begins).Text());
            Assert.Equal(applied.Begins, begins);
            if (LedgerTables.VersionOf(connection) == LedgerTables.Oldest)
            {
                Assert.Equal(applied.Text(), SituationReader.Indexed(connection, row.Serial, revisions.Read).Situation(begins).Text());
            }

            (seen, snapshots) = (seen + 1, snapshots + (row.Kind == Kinds.Snapshot ? 1 : 0));
        }

        return (seen, snapshots);
    }

    /// <summary>
    /// A ledger that an older program began, and of which this program wrote the rest: it has no snapshots, and its first entries are of version 1, which knows
    /// of no loads and no single nests.
    /// </summary>
    private static int ByIndexes(string path, double cut)
    {
        using var older = new TestLedger();
        System.IO.File.Copy(path, older.File);
        var rows = older.Rows();
        var last = rows[(int)(cut * (rows.Count - 1))].Serial;
        older.Sql($"DELETE FROM entry WHERE kind = 'snapshot' OR "
            + $"(serial <= {last} AND (kind IN ('done', 'trial', 'loaded', 'dropped', 'grid') "
            + "OR (kind = 'measurement' OR kind = 'refusal' AND body LIKE '%\"asked\":\"measured\"%') AND body LIKE '%\"nest\":%'))");
        older.Sql($"UPDATE entry SET body = '{{\"v\":1' || substr(body, 7) WHERE serial <= {last}");
        using var connection = LedgerFile.OpenClosed(older.File);
        var (applied, revisions, seen) = (Situation.Empty, new AdoptedRevisions(), 0);
        foreach (var row in LedgerQueries.After(connection, 0, int.MaxValue))
        {
            applied = applied.Apply(row.ReadBody()!, revisions.Read);
            var indexed = SituationReader.Indexed(connection, row.Serial, revisions.Read).Situation(SituationReader.Begins(connection, row.Serial));
            Assert.Equal($"{row.Serial} {applied.Text()}", $"{row.Serial} {indexed.Text()}");
            seen++;
        }

        return seen;
    }

    private static async Task StartsWhereItIsCut(TestLedger ledger, SteppedTime time, double where)
    {
        using var cut = new TestLedger(time);
        System.IO.File.Copy(ledger.File, cut.File);
        var rows = ledger.Rows();
        var last = rows[(int)(where * (rows.Count - 1))].Serial;
        cut.Sql($"DELETE FROM entry WHERE serial > {last}");
        using var writer = Ledger.Writing.LedgerWriter.Open(cut.Folder, time);
        using var connection = LedgerFile.OpenReader(ledger.Folder);

        if (rows[^1].Serial != last || rows[^1].Kind != Kinds.RolledOver)
        {
            Assert.Equal((last, SituationReader.From(connection, null, last, null)!.Situation(1).Text()), (writer.Serial, writer.Situation.Text()));
        }
    }
}
