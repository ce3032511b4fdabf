using Stockseat.Answers.Entries;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Locate;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Tests.Rolling;
using Stockseat.Ledger.Tests.Support;
using TestLedger = Stockseat.Ledger.Tests.Support.Ledger;

namespace Stockseat.Ledger.Tests.Kept;

/// <summary>
/// The same as <see cref="KeptLedgerTests"/> for a ledger with tables of version 2 and snapshots, also made only once. With
/// <c>STOCKSEAT_KEEP_LEDGER2=FILE</c> the last test here writes one.
/// What its snapshots carry must never come out differently.
/// </summary>
public sealed class KeptTablesTests
{
    private const int Entries = 22;
    private const string Head = "09c2c335d07c28c1ae34d3e72ba5f3363f2998e323fdc7502be05cd346d4d132";
    private static readonly string Kept = Path.Combine(AppContext.BaseDirectory, "Kept", "ledger-v2.db");

    [Fact]
    public void The_kept_ledger_is_intact_to_the_last_digit_and_its_snapshots_are_right()
    {
        using var ledger = Copy();

        var verified = ledger.Verify();

        Assert.Empty(verified.Faults);
        Assert.Equal((true, Entries, Head), (verified.Whole, (int)verified.Entries, verified.HeadHash));
        Assert.Equal([15L, 21L], ledger.Rows().Where(r => r.Kind == Kinds.Snapshot).Select(r => r.Serial));
        using var connection = LedgerFile.OpenReader(ledger.Folder);
        Assert.Equal(2, LedgerTables.VersionOf(connection));
    }

    [Fact]
    public void Each_body_is_read_and_written_again_to_the_same_bytes()
    {
        using var ledger = Copy();

        Assert.All(ledger.Rows(), row => Assert.Equal(row.Body, KeptLedgerTests.Text(row.ReadBody()!)));
    }

    [Fact]
    public void The_kept_decisions_come_out_the_same_in_a_replay()
    {
        using var ledger = Copy();

        var replayed = ledger.Replay();

        Assert.Equal((0, 1, Entries, 3, 1, 11),
            (replayed.ExitCode, (int)replayed.First, (int)replayed.Last, (int)replayed.Answers, (int)replayed.Refusals, (int)replayed.Others));
        Assert.Equal(replayed.Answers + replayed.Refusals + replayed.Others, replayed.Same);
    }

    [Fact]
    public void The_snapshots_lead_to_the_same_situation_as_all_entries()
    {
        using var ledger = Copy();
        using var connection = LedgerFile.OpenReader(ledger.Folder);

        Assert.All(ledger.Rows(), row => Assert.Equal(
            SituationReader.From(connection, null, row.Serial, null)!.Situation(1).Text(),
            SituationReader.Carried(connection, row.Serial).Situation(1).Text()));
    }

    [Fact]
    public async Task The_kept_ledger_opens_with_its_last_situation_and_can_be_continued()
    {
        using var ledger = Copy(new SteppedTime(days: 1));
        ledger.Fixture = new("bed", [TestLedger.Revision(1, KeptLedgerTests.Limits)], []);
        ledger.SnapshotEvery = 1000;
        await ledger.Begin();
        var bed = ledger.Writer.Situation.Find("bed")!;
        var served = (AnswerBody)ledger.Rows().First(r => r.Kind == Kinds.Answer).ReadBody()!;

        Assert.Equal((1, 2L, "maintenance"), (bed.InForce!.Number, bed.AdoptedBy, Assert.Single(bed.Holds.Values).By));
        Assert.Equal(0.0924, ledger.Writer.Situation.Lots["A1"].Terms.Nominal);
        Assert.NotNull(ledger.Writer.Situation.StepBack);
        await ledger.Do<ReleasedBody>(new ReleaseAsk(new("bench", "demo", null), "bed") { By = "setter", Why = "done", Of = "maintenance" });
        Assert.Equal(served.Serial, (await ledger.Do<AnswerBody>(TestLedger.Locate(request: "kept-1"))).Serial);
        await ledger.End();
        Assert.Empty(ledger.Verify().Faults);
        Assert.Equal(0, ledger.Replay().ExitCode);
    }

    [Fact]
    public async Task A_ledger_made_now_in_the_same_way_has_the_same_kinds()
    {
        var time = new SteppedTime();
        using var ledger = new TestLedger(time) { Fixture = new("bed", [TestLedger.Revision(1, KeptLedgerTests.Limits)], []), SnapshotEvery = 1000 };
        await KeptLedgerTests.Fill(ledger, time);

        if (Environment.GetEnvironmentVariable("STOCKSEAT_KEEP_LEDGER2") is { Length: > 0 } file)
        {
            File.Copy(ledger.File, file);
        }

        using var kept = Copy();
        Assert.Equal(kept.Rows().Select(r => r.Kind), ledger.Rows().Select(r => r.Kind));
    }

    private static TestLedger Copy(TimeProvider? time = null)
    {
        var ledger = new TestLedger(time);
        File.Copy(Kept, ledger.File);
        return ledger;
    }
}
