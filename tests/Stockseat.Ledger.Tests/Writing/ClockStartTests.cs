using Stockseat.Answers.Entries;
using Stockseat.Answers.State;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Tests.Support;
using Stockseat.Tests.Support.Clocks;

namespace Stockseat.Ledger.Tests.Writing;

public sealed class ClockStartTests
{
    private static readonly TimeSpan Hour = TimeSpan.FromHours(1);
    private readonly SteppedTime _time = new();

    [Fact]
    public async Task A_start_behind_the_last_entry_records_the_step_before_any_other_entry()
    {
        using var ledger = await new Support.Ledger(_time).Begin();
        await ledger.Do(Support.Ledger.Measured(0.09));
        await ledger.End();
        _time.Set(-Hour);
        _time.Advance(TimeSpan.FromMinutes(1));
        await ledger.Begin();

        Assert.Contains("at a start the clock was 3540 s behind the ledger's last entry (entry 5)", (await ledger.Stale()).Text, StringComparison.Ordinal);
        Assert.Equal([Kinds.Measurement, Kinds.ServiceStopped, Kinds.ClockStep, Kinds.ServiceStarted, Kinds.Refusal],
            ledger.Rows().Skip(2).Select(r => r.Kind));
        Assert.True(ledger.Steps() is [{ Seconds: -3540.0, Before: "2026-11-25T08:00:00.000000Z", AtStart: true }]);
        Assert.Equal(Kinds.ServiceStopped, ledger.Writer.LastKind);
        Assert.True(ledger.Verify().Whole);
    }

    [Fact]
    public async Task A_start_later_than_the_last_entry_is_not_a_step()
    {
        using var ledger = await new Support.Ledger(_time).Begin();
        await ledger.Do(Support.Ledger.Measured(0.09));
        await ledger.End();
        _time.Set(3 * Hour);
        await ledger.Begin();

        Assert.Equal((0.09, 10800.0), await ledger.Located());
        Assert.Empty(ledger.Steps());
    }

    [Fact]
    public async Task The_first_entry_of_a_ledger_is_always_the_start()
    {
        using var ledger = new Support.Ledger(new SetAtTheFirstLook(_time));
        await ledger.Begin();

        Assert.Equal([Kinds.ServiceStarted, Kinds.RevisionAdopted], ledger.Rows().Select(r => r.Kind));
        Assert.Equal("2026-11-25T07:00:00.000000Z", ledger.Rows()[0].At);
        Assert.True(ledger.Verify().Whole);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task After_a_restart_as_much_is_known_of_a_step_as_before(bool measuredAfter)
    {
        using var ledger = await new Support.Ledger(_time).Begin();
        await ledger.Do(Support.Ledger.Measured(0.09));
        _time.Set(-Hour);
        await ledger.Stale();
        if (measuredAfter)
        {
            await ledger.Do(Support.Ledger.Measured(0.085));
        }

        var before = ledger.Writer.Situation.StepBack;
        _time.Advance(2 * Hour); // past all entries: only the recorded step shows that the clock went back
        await ledger.Again();

        Assert.Equal(new StepBack(4, 3600, false), ledger.Writer.Situation.StepBack);
        Assert.Equal(before, ledger.Writer.Situation.StepBack);
        if (measuredAfter)
        {
            Assert.Equal((0.085, 7200.0), await ledger.Located());
        }
        else
        {
            await ledger.Stale();
        }

        Assert.Single(ledger.Steps());
    }

    [Theory]
    [InlineData(0, false, true)]
    [InlineData(0, true, true)]
    [InlineData(1, false, false)]
    [InlineData(1, true, false)]
    public async Task A_measurement_is_fresh_to_the_microsecond_across_a_restart_too(long beyondMicroseconds, bool restart, bool fresh)
    {
        using var ledger = await new Support.Ledger(_time).Begin();
        await ledger.Do(Support.Ledger.Measured(0.09));
        if (restart)
        {
            await ledger.Again();
        }

        _time.Advance(8 * Hour + TimeSpan.FromMicroseconds(beyondMicroseconds));

        Assert.Equal(fresh ? Kinds.Answer : Kinds.Refusal, (await ledger.Do(Support.Ledger.Locate(null))).Kind);
    }

    [Fact]
    public async Task Very_many_steps_hide_no_step_back_from_a_restart()
    {
        using var ledger = await new Support.Ledger(_time).Begin();
        await ledger.Do(Support.Ledger.Measured(0.09));
        _time.Set(-Hour);
        await ledger.Stale();
        await Support.Ledger.Soon(Task.WhenAll(Enumerable.Range(0, 3000).Select(_ => ledger.Writer.Append(_ =>
        {
            _time.Set(TimeSpan.FromSeconds(1.1));
            return [];
        }))));
        var before = ledger.Writer.Situation.StepBack;
        await ledger.Again();

        Assert.Equal((3001, 4), (ledger.Steps().Count, before!.Serial));
        Assert.Equal(before, ledger.Writer.Situation.StepBack);
        await ledger.Stale();
    }

    [Fact]
    public async Task The_newest_step_is_found_by_the_index()
    {
        using var ledger = await new Support.Ledger(_time).Begin();
        using var connection = ledger.Other();
        using var command = connection.CreateCommand();
        command.CommandText = $"EXPLAIN QUERY PLAN {StandingQueries.NewestStepSql}";
        using var reader = command.ExecuteReader();

        Assert.True(reader.Read());
        Assert.Contains("USING INDEX entry_standing (fixture=? AND kind=? AND serial<?)", reader.GetString(3), StringComparison.Ordinal);
    }

    /// <summary>The clock is set right after the ledger was opened.</summary>
    private sealed class SetAtTheFirstLook(SteppedTime time) : TimeProvider
    {
        private int _looks;

        public override long TimestampFrequency => time.TimestampFrequency;

        public override long GetTimestamp() => time.GetTimestamp();

        public override DateTimeOffset GetUtcNow()
        {
            if (++_looks == 2)
            {
                time.Set(-Hour);
            }

            return time.GetUtcNow();
        }
    }
}
