using Stockseat.Answers.Entries;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Snapshots;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Tests.Rolling;
using Stockseat.Ledger.Tests.Support;
using TestLedger = Stockseat.Ledger.Tests.Support.Ledger;

namespace Stockseat.Ledger.Tests.Snapshots;

/// <summary>When a snapshot is written, what it carries, and who uses it.</summary>
public sealed class SnapshotTests
{
    private readonly SteppedTime _time = new();

    [Fact]
    public async Task A_snapshot_is_written_every_N_entries_and_at_a_stop_and_carries_the_rows_as_they_are()
    {
        using var ledger = await new TestLedger(_time) { SnapshotEvery = 5 }.Begin();
        await ledger.Do(TestLedger.Measured(0.09));
        await ledger.Do(TestLedger.Measured(0.091));
        await ledger.Do(TestLedger.Locate(null));
        await ledger.Reaches(6);
        await ledger.Do(TestLedger.Locate());
        await ledger.End();

        var rows = ledger.Rows();
        Assert.Equal(["service-started", "revision-adopted", "measurement", "measurement", "answer", "snapshot", "answer", "snapshot", "service-stopped"],
            rows.Select(r => r.Kind));
        foreach (var (snapshot, newest) in new[] { (rows[5], rows[4]), (rows[7], rows[6]) })
        {
            var carried = Assert.IsType<SnapshotBody>(snapshot.ReadBody()).Carried.Select(c => c.GetRawText());
            Assert.Equal([rows[1].Body, rows[3].Body, newest.Body], carried);
        }

        Assert.Empty(ledger.Verify().Faults);
    }

    [Fact]
    public async Task Snapshots_and_seals_do_not_cause_each_other()
    {
        using var keys = new KeyFile();
        using var ledger = new TestLedger(_time) { SnapshotEvery = 1, Seals = new(keys.Write().Load(), 1, TimeSpan.FromSeconds(1)) };
        await ledger.Begin();
        for (var i = 0; i < 20; i++)
        {
            _time.Advance(TimeSpan.FromSeconds(2));
            await ledger.Settle();
        }

        await ledger.Close();

        Assert.Equal(["service-started", "revision-adopted", "snapshot", "seal"], ledger.Rows().Select(r => r.Kind));
    }

    [Fact]
    public async Task A_snapshot_that_carries_more_than_came_since_waits_until_as_much_came()
    {
        using var ledger = new TestLedger(_time) { SnapshotEvery = 1 };
        await ledger.Begin();
        for (var i = 0; i < 12; i++)
        {
            await ledger.Do(TestLedger.Locate());
            await ledger.Settle(); // if a snapshot was due, it was written by then
        }

        var rows = ledger.Rows();
        var snapshots = rows.Where(r => r.Kind == Kinds.Snapshot).ToList();
        Assert.InRange(snapshots.Count, 3, 8);
        foreach (var (before, next) in snapshots.Zip(snapshots.Skip(1)))
        {
            var since = rows.Where(r => r.Serial > before.Serial && r.Serial < next.Serial).Select(r => r.Body.Length).ToList();
            Assert.InRange(before.Body.Length, since.SkipLast(1).Sum() + 1, since.Sum());
        }
    }

    [Fact]
    public async Task No_snapshot_is_written_where_nothing_came_since()
    {
        using var ledger = await new TestLedger(_time) { SnapshotEvery = 1000 }.Begin();

        var first = await TestLedger.Soon(ledger.Writer.Snapshot());
        var second = await TestLedger.Soon(ledger.Writer.Snapshot());

        Assert.IsType<SnapshotBody>(first.Entry);
        Assert.Equal((null, null), (second.Entry, second.Refusal));
        await ledger.Close();
        Assert.Equal(3, ledger.Rows().Count);
    }

    [Fact]
    public async Task A_clean_stop_ends_with_its_own_entry_and_the_seal()
    {
        using var keys = new KeyFile();
        using var ledger = new TestLedger(_time) { SnapshotEvery = 1000, Seals = new(keys.Write().Load(), 1000, TimeSpan.FromHours(1)) };
        await ledger.Begin();
        await ledger.End();
        await ledger.Begin();

        Assert.Equal(["snapshot", "service-stopped", "seal"], ledger.Rows()[2..5].Select(r => r.Kind));
        Assert.Equal("service-stopped", ledger.Writer.LastKind);
    }

    [Fact]
    public async Task A_start_after_a_kill_sees_what_happened_before_the_snapshot()
    {
        using var ledger = await new TestLedger(_time) { SnapshotEvery = 1000 }.Begin();
        await TestLedger.Soon(ledger.Writer.Snapshot());
        await ledger.Kill();
        await ledger.Begin();

        Assert.Equal("revision-adopted", ledger.Writer.LastKind);
    }

    [Fact]
    public async Task The_whole_situation_is_restored_by_a_start_that_reads_the_snapshot()
    {
        using var ledger = await Rolled.Full(_time);
        var before = ledger.Writer.Situation.Text();
        await ledger.Kill();
        ledger.SnapshotEvery = 1000;
        await ledger.Begin();
        await TestLedger.Soon(ledger.Writer.Snapshot());
        await ledger.Kill();
        Assert.NotEqual(0, ledger.Sql("DELETE FROM entry WHERE serial > 1 AND serial < (SELECT max(serial) - 1 FROM entry)"));
        await ledger.Begin();

        Assert.Equal(before, ledger.Writer.Situation.Text()); // from the snapshot: there is nothing else
    }

    [Fact]
    public async Task An_unreadable_snapshot_is_skipped()
    {
        using var ledger = await new TestLedger(_time) { SnapshotEvery = 1000 }.Begin();
        await ledger.Do(TestLedger.Measured(0.09));
        await TestLedger.Soon(ledger.Writer.Snapshot());
        await ledger.Do(new HoldAsk(new("bench", null, null), "bed") { By = "a", Why = "w" });
        var text = ledger.Writer.Situation.Text();
        Assert.Equal(1, ledger.Sql("UPDATE entry SET body = replace(body, '\"carried\":[', '\"carried\":[5,') WHERE kind = 'snapshot'"));
        using var connection = LedgerFile.OpenReader(ledger.Folder);

        Assert.Equal(text, SituationReader.Read(connection).Text());
    }

    [Fact]
    public async Task A_ledger_of_an_older_program_gets_snapshots_and_they_are_used()
    {
        using var ledger = await new TestLedger(_time) { Tables = 1 }.Begin();
        await ledger.Do(TestLedger.Measured(0.09));
        await ledger.Do(new MeasureAsk(new("bench", null, null), "bed") { ReadingsMetres = [0.09, 0.0905], Terms = new(null, 1e-5, TimeSpan.FromHours(8)) });
        await ledger.Kill();
        ledger.SnapshotEvery = 3;
        await ledger.Begin();
        await ledger.Reaches(6);
        var text = ledger.Writer.Situation.Text();
        await ledger.Kill();

        Assert.Equal(Kinds.Snapshot, ledger.Rows()[5].Kind);
        using var connection = LedgerFile.OpenReader(ledger.Folder);
        Assert.Equal((1, text), (LedgerTables.VersionOf(connection), SituationReader.Read(connection).Text()));
        Assert.Empty(ledger.Verify().Faults);
    }
}
