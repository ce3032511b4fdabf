using Stockseat.Answers.Asking;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Audit.Replaying;
using Stockseat.Fixtures.Revisions;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Tests.Rolling;
using Stockseat.Ledger.Tests.Support;
using Stockseat.Tests.Support.Clocks;
using TestLedger = Stockseat.Ledger.Tests.Support.Ledger;

namespace Stockseat.Audit.Tests.Replaying;

/// <summary>Whoever can write to the file can write anything into it: a replay says so and ends.</summary>
public sealed class OddLedgerTests
{
    [Theory]
    [InlineData(1_000_000_000_000_000L)]
    [InlineData(long.MaxValue)]
    public async Task Serials_far_beyond_the_others_do_not_slow_a_replay(long serial)
    {
        using var ledger = await new TestLedger(new SteppedTime()).Begin();
        await ledger.Do<AnswerBody>(TestLedger.Locate());
        await ledger.End();
        ledger.Sql($"UPDATE entry SET serial = {serial} WHERE serial = 4");
        using var patience = new CancellationTokenSource(Deadline.Usual);

        var found = LedgerReplay.Run(ledger.Folder, new() { Ranges = 2 }, patience.Token);

        Assert.Equal((1, serial, 1), (found.First, found.Last, found.Answers));
    }

    [Theory]
    [InlineData("answer", "service-stopped")]
    [InlineData("refusal", "service-stopped")]
    [InlineData("answer", "unclean-stop")]
    public async Task An_entry_recorded_as_another_kind_is_not_skipped(string kind, string other)
    {
        using var ledger = await new TestLedger(new SteppedTime()).Begin();
        await ledger.Do<AnswerBody>(TestLedger.Locate());
        await ledger.Do<RefusalBody>(TestLedger.Locate(0.001));
        ledger.Sql($"UPDATE entry SET body = json_set(body, '$.position', json('[1,2,3]'), '$.last', 1), kind = '{other}' WHERE kind = '{kind}'");

        var found = ledger.Replay();

        Assert.NotEqual(0, found.ExitCode);
        Assert.Contains($"has the kind {other} in its column and {kind} in its body", found.Unreadable, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_working_of_a_confirmation_survives_an_answer_that_cant_be_read()
    {
        using var ledger = await new TestLedger(new SteppedTime()).Begin();
        var measured = await ledger.Do<MeasurementBody>(TestLedger.Measured(0.09));
        var answer = await ledger.Do<AnswerBody>(TestLedger.Locate(null));
        await ledger.Do<AnswerBody>(TestLedger.Locate(null)); // What holds rests on the newest answer, so that one has to be another.
        var confirmed = await ledger.Do<ConfirmationBody>(TestLedger.Received(answer));
        var next = await ledger.Do<AnswerBody>(TestLedger.Locate(null));
        ledger.Sql($"UPDATE entry SET body = 'nothing' WHERE serial IN ({answer.Serial})");

        Assert.Equal(1, LedgerReplay.One(ledger.Folder, confirmed.Serial)!.Value.Result.ExitCode);
        ledger.Sql($"UPDATE entry SET body = '{{}}' WHERE serial IN ({measured.Serial})");
        Assert.Equal(2, LedgerReplay.One(ledger.Folder, next.Serial)!.Value.Result.ExitCode);
    }

    [Fact]
    public async Task An_entry_of_a_closed_ledger_that_cant_be_read_is_reported_like_a_range_with_it()
    {
        using var ledger = await new TestLedger(new SteppedTime()).Begin();
        await ledger.Roll();
        await ledger.Do<AnswerBody>(TestLedger.Locate());
        await File.WriteAllTextAsync(Assert.Single(ClosedLedgers.Of(ledger.Folder)).Path, "no ledger");

        var (found, working) = LedgerReplay.One(ledger.Folder, 1)!.Value;

        Assert.Equal((2, 0), (found.ExitCode, working.Sections.Count));
        Assert.Contains("among the closed ledgers can't be read", found.Unreadable, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_working_does_not_compare_a_confirmation_with_an_answer_that_came_after_it()
    {
        using var ledger = await new TestLedger(new SteppedTime()).Begin();
        var refused = await ledger.Do<RefusalBody>(TestLedger.Confirm(4, by: "0.005"));
        Assert.Equal(4, (await ledger.Do<AnswerBody>(TestLedger.Locate())).Serial);

        var (found, working) = LedgerReplay.One(ledger.Folder, refused.Serial)!.Value;

        Assert.Equal(0, found.ExitCode);
        Assert.Contains("Answer 4 was not found: what it served can't be compared.", working.Sections.SelectMany(s => s.Lines).Select(l => l.Text));
    }

    [Fact]
    public async Task Of_two_closed_ledgers_with_the_same_beginning_the_one_that_the_service_reads_counts()
    {
        using var ledger = await new TestLedger(new SteppedTime()).Begin();
        var copy = Path.Combine(ledger.Folder, "copy");
        await ledger.End();
        File.Copy(ledger.File, copy);
        await ledger.Begin();
        await ledger.Do<AnswerBody>(TestLedger.Locate(0.085));
        await ledger.Roll();
        await ledger.End();
        File.Delete(ledger.File + "-wal");
        File.Delete(ledger.File + "-shm");
        File.Move(copy, ledger.File, overwrite: true); // a copy was put back, and continued differently
        await ledger.Begin();
        var answer = await ledger.Do<AnswerBody>(TestLedger.Locate(0.095));
        await ledger.Roll();
        await ledger.Do<ConfirmationBody>(TestLedger.Received(answer));
        Assert.Equal(2, ClosedLedgers.Of(ledger.Folder).Count(f => f.First == 1));

        var found = ledger.Replay();

        Assert.Equal((0, 1L, 0L), (found.ExitCode, found.Answers, found.Given));
    }

    [Theory]
    [InlineData(100, null)]
    [InlineData(1, 2L)]
    public async Task Entries_that_are_missing_do_not_count_as_the_same(int from, long? until)
    {
        using var ledger = await new TestLedger(new SteppedTime()).Begin();
        await ledger.Roll();
        await ledger.Do<AnswerBody>(TestLedger.Locate());
        File.Delete(Assert.Single(ClosedLedgers.Of(ledger.Folder)).Path);

        var found = Replays.Of(ledger.Folder, new() { From = from, Until = until });

        Assert.Equal((2, 0L), (found.ExitCode, found.First));
        Assert.Contains("this ledger has entries 4 to 5", found.Unreadable, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_withdrawn_fixture_of_which_nothing_is_carried_any_more_was_still_known()
    {
        using var ledger = await new TestLedger(new SteppedTime()).Begin();
        var late = new FixtureFolder("late", [], []);
        await TestLedger.Soon(ledger.Writer.Append(_ => [], [ledger.Fixture, late]));
        var who = new Caller("bench", "demo", null);
        await ledger.Do<HeldBody>(new HoldAsk(who, "late") { By = "setter", Why = "new" });
        await TestLedger.Soon(ledger.Writer.Append(_ => [], [ledger.Fixture]));
        await ledger.Do<ReleasedBody>(new ReleaseAsk(who, "late") { By = "setter", Why = "gone", Of = "setter" });
        Assert.Equal("fixture-withdrawn", (await ledger.Do<RefusalBody>(new LocateAsk(who, "late") { DiameterMetres = 0.09 })).Reason);
        await TestLedger.Soon(ledger.Writer.Append(_ => [], [ledger.Fixture]));
        Assert.Equal("fixture-unknown", (await ledger.Do<RefusalBody>(new LocateAsk(who, "late") { DiameterMetres = 0.09 })).Reason);

        var found = ledger.Replay();

        Assert.Equal((0, 2L), (found.ExitCode, found.Given));
    }
}
