using Stockseat.Answers.Asking;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Tests.Support;
using Stockseat.Tests.Support.Clocks;

namespace Stockseat.Ledger.Tests.Writing;

public sealed class ClockStepTests
{
    private static readonly TimeSpan Hour = TimeSpan.FromHours(1);
    private readonly SteppedTime _time = new();

    [Fact]
    public async Task A_step_back_while_running_is_recorded_before_the_decision_that_found_it()
    {
        using var ledger = await new Support.Ledger(_time).Begin();
        await ledger.Do(Support.Ledger.Measured(0.09));
        _time.Set(-2 * Hour);

        var refusal = await ledger.Do<RefusalBody>(Support.Ledger.Locate(null));

        Assert.Equal((5, "measurement-stale", "2026-11-25T06:00:00.000000Z"), (refusal.Serial, refusal.Reason, refusal.At));
        Assert.Contains("set back by 7200 s (entry 4) after measurement 3 of bed", refusal.Text, StringComparison.Ordinal);
        Assert.Equal(
            """{"v":2,"serial":4,"at":"2026-11-25T06:00:00.000000Z","kind":"clock-step",""" + "\""
            + """seconds":-7200,"before":"2026-11-25T08:00:00.000000Z","atStart":false}""",
            ledger.Rows()[3].Body);
        Assert.True(ledger.Verify().Whole);
    }

    [Fact]
    public async Task A_measurement_from_after_the_step_is_used()
    {
        using var ledger = await new Support.Ledger(_time).Begin();
        await ledger.Do(Support.Ledger.Measured(0.09));
        _time.Set(-Hour);
        await ledger.Do(Support.Ledger.Measured(0.085));

        Assert.Equal((0.085, 0.0), await ledger.Located());
        Assert.Single(ledger.Steps());
    }

    [Fact]
    public async Task A_step_forward_is_recorded_and_makes_the_measurement_older()
    {
        using var ledger = await new Support.Ledger(_time).Begin();
        await ledger.Do(Support.Ledger.Measured(0.09));
        _time.Set(5 * Hour);
        Assert.Equal((0.09, 18000.0), await ledger.Located());
        _time.Set(4 * Hour);

        Assert.Contains("is 32400 s old", (await ledger.Stale()).Text, StringComparison.Ordinal);
        Assert.Equal([18000.0, 14400.0], ledger.Steps().Select(s => s.Seconds));
    }

    [Fact]
    public async Task A_slow_drift_and_a_long_idle_make_no_entry()
    {
        using var ledger = await new Support.Ledger(_time).Begin();
        for (var i = 0; i < 100; i++)
        {
            await ledger.Do(Support.Ledger.Measured(0.09));
            _time.Advance(TimeSpan.FromSeconds(30));
            _time.Set(TimeSpan.FromMilliseconds(-15));
            await ledger.Located();
        }

        _time.Advance(TimeSpan.FromDays(400));
        await ledger.Do(Support.Ledger.Locate());

        Assert.Empty(ledger.Steps());
    }

    [Fact]
    public async Task A_step_between_two_asks_of_one_batch_separates_them()
    {
        using var ledger = await new Support.Ledger(_time).Begin();
        await ledger.Do(Support.Ledger.Measured(0.09));
        using var gate = new Support.Gate(ledger.Writer);
        await gate.Entered;
        var before = ledger.Writer.Append(Support.Ledger.Locate(null));
        var set = ledger.Writer.Append(new MeasureAsk(Support.Ledger.Locate().Caller, "nowhere") { ReadingsMetres = new Read(() => _time.Set(-Hour)),
            Terms = null });
        var after = ledger.Writer.Append(Support.Ledger.Locate(null));
        gate.Open();
        await Support.Ledger.Soon(Task.WhenAll(before, set, after));

        Assert.IsType<AnswerBody>((await before).Entry);
        Assert.Equal("measurement-stale", Assert.IsType<RefusalBody>((await after).Entry).Reason);
        Assert.Equal([Kinds.Measurement, Kinds.Answer, Kinds.Refusal, Kinds.ClockStep, Kinds.Refusal], ledger.Rows().Skip(2).Select(r => r.Kind));
    }

    [Fact]
    public async Task A_step_whose_entry_could_not_be_written_is_found_again_after_the_recovery()
    {
        using var ledger = await new Support.Ledger(_time).Begin();
        await ledger.Do(Support.Ledger.Measured(0.09));
        _time.Advance(2 * Hour);
        var back = new TaskCompletionSource();
        ledger.Writer.WritableChanged += (writable, _) => Assert.True(!writable || back.TrySetResult());
        ledger.Sql("CREATE TRIGGER full BEFORE INSERT ON entry BEGIN SELECT RAISE(ABORT, 'no room'); END");
        _time.Set(-Hour); // still later than the last entry
        Assert.Equal(Reason.LedgerUnavailable, await ledger.Refused(Support.Ledger.Locate(null)));
        ledger.Sql("DROP TRIGGER full");
        await Support.Ledger.Soon(back.Task);

        await ledger.Stale();
        Assert.True(ledger.Steps() is [{ Serial: 4, Seconds: -3600.0, AtStart: false }]);
    }

    [Fact]
    public async Task Emptied_before_or_after_a_step_stays_emptied()
    {
        using var ledger = await new Support.Ledger(_time).Begin();
        await ledger.Do(Support.Ledger.Measured(0.09));
        _time.Set(-Hour);
        await ledger.Do(new EmptiedAsk(new("gauge", null, null), "bed"));
        _time.Set(Hour);
        Assert.Equal("measurement-missing", (await ledger.Do<RefusalBody>(Support.Ledger.Locate(null))).Reason);
        await ledger.Again();

        Assert.Equal("measurement-missing", (await ledger.Do<RefusalBody>(Support.Ledger.Locate(null))).Reason);
    }

    [Fact]
    public async Task A_retry_does_not_get_an_answer_from_before_a_step_back()
    {
        using var ledger = await new Support.Ledger(_time).Begin();
        await ledger.Do(Support.Ledger.Measured(0.09));
        Assert.IsType<AnswerBody>(await ledger.Do(Support.Ledger.Locate(null, "id-1")));
        _time.Set(-Hour);

        Assert.Equal("measurement-stale", (await ledger.Do<RefusalBody>(Support.Ledger.Locate(null, "id-1"))).Reason);
    }

    [Fact]
    public async Task Reading_is_ordered_by_serials_when_the_instants_go_back()
    {
        using var ledger = await new Support.Ledger(_time).Begin();
        for (var i = 0; i < 4; i++)
        {
            await ledger.Do(Support.Ledger.Locate());
            _time.Set(-Hour);
        }

        using var reader = LedgerFile.OpenReader(ledger.Folder);
        long[] all = [1, 2, 3, 4, 5, 6, 7, 8, 9];
        Assert.Equal(all, LedgerQueries.Newest(reader, 100).Select(r => r.Serial));
        Assert.Equal(all[2..5], LedgerQueries.Before(reader, 6, 3).Select(r => r.Serial));
        Assert.Equal(all[6..], LedgerQueries.Piece(reader, 6, 9, 100, null).Rows.Select(r => r.Serial));
        Assert.Equal([4, 6, 8], LedgerQueries.Newest(reader, 100, new(Kind: Kinds.ClockStep)).Select(r => r.Serial));
        Assert.True(ledger.Verify().Whole);
    }

    /// <summary>A reading that does something when its value is first used, in the middle of a batch.</summary>
    private sealed class Read(Action happens) : IReadOnlyList<double>
    {
        private Action? _happens = happens;

        public int Count => 1;

        public double this[int index] => 0.09;

        public IEnumerator<double> GetEnumerator()
        {
            Interlocked.Exchange(ref _happens, null)?.Invoke();
            yield return 0.09;
        }

        System.Collections.IEnumerator System.Collections.IEnumerable.GetEnumerator() => GetEnumerator();
    }
}
