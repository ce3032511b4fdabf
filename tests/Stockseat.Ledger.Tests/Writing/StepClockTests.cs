using Stockseat.Answers.Events;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Tests.Support;
using Stockseat.Tests.Support.Clocks;

namespace Stockseat.Ledger.Tests.Writing;

public sealed class StepClockTests
{
    private static readonly TimeSpan Microsecond = TimeSpan.FromMicroseconds(1);
    private readonly SteppedTime _time = new();

    [Fact]
    public void A_clock_that_agrees_with_its_counter_makes_no_step()
    {
        var clock = new StepClock(_time, null);
        foreach (var minutes in new[] { 0, 1, 60, 100_000 })
        {
            _time.Advance(TimeSpan.FromMinutes(minutes));
            Assert.Null(Look(clock));
        }
    }

    [Theory]
    [InlineData(-1, 0, false)]
    [InlineData(1, 0, false)]
    [InlineData(-1, 1, true)]
    [InlineData(1, 1, true)]
    public void A_step_is_more_than_a_second_plus_a_part_in_2000_of_the_time_between(int sign, int beyondMicroseconds, bool step)
    {
        var clock = new StepClock(_time, null);
        _time.Advance(TimeSpan.FromSeconds(2000));
        _time.Set(sign * (TimeSpan.FromSeconds(2) + beyondMicroseconds * Microsecond));

        Assert.Equal(step ? sign * 2.000001 : null, Look(clock)?.Seconds);
    }

    [Fact]
    public void A_step_gives_its_size_and_the_expected_instant()
    {
        var clock = new StepClock(_time, null);
        _time.Advance(TimeSpan.FromSeconds(5));
        _time.Set(TimeSpan.FromHours(-1) - TimeSpan.FromTicks(12));

        var step = Look(clock)!;

        Assert.Equal((-3600.000001, "2026-11-25T08:00:05.000000Z", false), (step.Seconds, step.Before, step.AtStart));
        Assert.Null(Look(clock));
    }

    [Fact]
    public void A_drift_of_a_part_in_2000_is_not_a_step_however_long_and_often_it_is_checked()
    {
        var clock = new StepClock(_time, null);
        for (var i = 0; i < 5000; i++)
        {
            _time.Advance(TimeSpan.FromSeconds(i % 100));
            _time.Set(TimeSpan.FromSeconds(i % 100) / (i < 2500 ? StepClock.Drift : -StepClock.Drift));
            Assert.Null(Look(clock));
        }
    }

    [Fact]
    public void Small_moves_add_up_to_a_step()
    {
        var clock = new StepClock(_time, null);
        Assert.Equal([null, null, null, -1.2, null, null, null, -1.2], Enumerable.Range(0, 8).Select(_ => Moved(-0.3)));
        Assert.Equal([null, null, 1.5, null], Enumerable.Range(0, 4).Select(_ => Moved(0.5)));

        double? Moved(double seconds)
        {
            _time.Set(TimeSpan.FromSeconds(seconds));
            return Look(clock)?.Seconds;
        }
    }

    [Fact]
    public void A_move_forward_leaves_no_extra_room_for_a_move_back()
    {
        var clock = new StepClock(_time, null);
        _time.Set(TimeSpan.FromSeconds(1));
        Assert.Null(Look(clock));
        _time.Set(TimeSpan.FromSeconds(-1.5));

        Assert.Equal(-1.5, Look(clock)?.Seconds);
    }

    [Fact]
    public void A_step_during_a_long_idle_is_found()
    {
        var clock = new StepClock(_time, null);
        _time.Advance(TimeSpan.FromDays(10));
        _time.Set(TimeSpan.FromMinutes(-10));

        Assert.Equal(-600.0, Look(clock)?.Seconds);
    }

    [Theory]
    [InlineData(1_000_000, false)]
    [InlineData(1_000_001, true)]
    public void A_start_more_than_a_second_behind_the_last_entry_is_a_step(long behindMicroseconds, bool step)
    {
        var clock = new StepClock(_time, Support.Ledger.Start + behindMicroseconds * Microsecond);

        var found = Look(clock);

        Assert.Equal(step, found is not null);
        Assert.True(found is null or { Seconds: -1.000001, Before: "2026-11-25T08:00:01.000001Z", AtStart: true });
        Assert.Null(Look(clock));
    }

    [Fact]
    public void A_start_after_the_last_entry_is_not_a_step_however_long_after() => Assert.Null(Look(new(_time, Support.Ledger.Start.AddYears(-3))));

    [Fact]
    public void A_step_that_was_not_recorded_is_found_again()
    {
        var clock = new StepClock(_time, null);
        _time.Advance(TimeSpan.FromHours(2));
        Assert.Null(Look(clock));
        clock.Keep();
        _time.Set(TimeSpan.FromHours(-1));
        Assert.NotNull(Look(clock));

        // It is not behind the entry of two hours ago, so only the counter tells.
        clock.Return(Support.Ledger.Start);
        _time.Advance(TimeSpan.FromSeconds(1));
        Assert.True(Look(clock) is { Seconds: -3600.0, AtStart: false });
        clock.Keep();

        clock.Return(Support.Ledger.Start);
        Assert.Null(Look(clock));
        clock.Return(Support.Ledger.Start.AddHours(5));
        Assert.True(Look(clock)!.AtStart);
    }

    [Fact]
    public void The_instant_is_truncated_to_microseconds()
    {
        var clock = new StepClock(_time, null);
        _time.Advance(TimeSpan.FromTicks(12_345_678));

        Assert.Equal(Support.Ledger.Start.AddTicks(12_345_670), clock.Look(out _));
    }

    [Fact]
    public void A_thread_that_was_delayed_between_clock_and_counter_reads_them_again()
    {
        var time = new HeldUp();
        var clock = new StepClock(time, null);
        time.HoldUp = 3;

        clock.Look(out var step);

        Assert.Equal((null, 0), (step, time.HoldUp));
        clock.Look(out step);
        Assert.Null(step);
    }

    private static ClockStepBody? Look(StepClock clock)
    {
        clock.Look(out var step);
        return step;
    }

    /// <summary>A minute passes right before the clock is read, a few times.</summary>
    private sealed class HeldUp : TimeProvider
    {
        private DateTimeOffset _now = Support.Ledger.Start;

        public int HoldUp { get; set; }

        public override long TimestampFrequency => TimeSpan.TicksPerSecond;

        public override long GetTimestamp() => _now.Ticks;

        public override DateTimeOffset GetUtcNow()
        {
            if (HoldUp > 0)
            {
                HoldUp--;
                _now += TimeSpan.FromMinutes(1);
            }

            return _now;
        }
    }
}
