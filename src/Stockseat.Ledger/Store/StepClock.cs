using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;

namespace Stockseat.Ledger.Store;

/// <summary>
/// The instants of the entries, and the steps of the clock that they come from. Whoever sets the clock can't set the counter that runs
/// beside it, so what the two disagree by was set. What was found in a batch that was not committed is found again.
/// </summary>
public sealed class StepClock
{
    /// <summary>
    /// How far clock and counter may move apart without a step; one part in <see cref="Drift"/> of the time between adds to it. A free-running
    /// counter is off by some ten parts in a million, and a clock that is corrected without steps goes 500 parts faster or slower at most; where
    /// both are corrected together, as on Linux, they agree. More than that is a step, on the safe side.
    /// </summary>
    public static readonly TimeSpan Slack = TimeSpan.FromSeconds(1);

    /// <summary>See <see cref="Slack"/>.</summary>
    public const int Drift = 2000;

    /// <summary>A thread that was held up between the two readings would see a step where there is none.</summary>
    private static readonly TimeSpan Sharp = TimeSpan.FromMilliseconds(10);

    private const int Tries = 10;

    private readonly TimeProvider _time;
    private State _state;
    private State _kept;

    /// <summary>Begins to look.</summary>
    /// <param name="time">Clock and counter.</param>
    /// <param name="last">The instant of the last entry; null in a new ledger.</param>
    public StepClock(TimeProvider time, DateTimeOffset? last)
    {
        _time = time;
        var (timestamp, now) = Read();
        _kept = _state = new(timestamp, now, TimeSpan.Zero, TimeSpan.Zero, last);
    }

    /// <summary>The instant, cut to microseconds, and the step since the look before; null when there was none.</summary>
    public DateTimeOffset Look(out ClockStepBody? step)
    {
        var (timestamp, now) = Read();
        var elapsed = _time.GetElapsedTime(_state.Timestamp, timestamp);
        var drift = Max(TimeSpan.Zero, elapsed / Drift);
        var moved = now - _state.Now - elapsed;
        // Small moves add up, each way for itself, less the drift: else many of them would be a step that nobody sees.
        var (back, forward) = (_state.Back + moved, _state.Forward + moved);
        var (isBack, isForward) = (back + drift < -Slack, forward - drift > Slack);
        step = isBack ? Step(now, back)
            : _state.Last is { } last && now - last < -Slack ? Step(now, now - last) with { AtStart = true }
            : isForward ? Step(now, forward)
            : null;
        _state = new(
            timestamp, now,
            isBack ? TimeSpan.Zero : -Max(TimeSpan.Zero, -(back + drift)),
            isForward ? TimeSpan.Zero : Max(TimeSpan.Zero, forward - drift),
            null);
        return now.AddTicks(-(now.Ticks % TimeSpan.TicksPerMicrosecond));
    }

    /// <summary>What was looked at until now is on the disk.</summary>
    public void Keep() => _kept = _state;

    /// <summary>What was looked at since then is not: it is judged again, and by the last entry that was found when the ledger was opened again.</summary>
    public void Return(DateTimeOffset? last) => _kept = _state = _kept with { Last = last };

    private static ClockStepBody Step(DateTimeOffset now, TimeSpan by) => new()
    {
        Seconds = Math.Round(by.TotalSeconds, 6),
        Before = EntryTime.Text(now - by),
    };

    private static TimeSpan Max(TimeSpan a, TimeSpan b) => a > b ? a : b;

    private (long Timestamp, DateTimeOffset Now) Read()
    {
        for (var i = 1; ; i++)
        {
            var timestamp = _time.GetTimestamp();
            var now = _time.GetUtcNow();
            if (_time.GetElapsedTime(timestamp) <= Sharp || i == Tries)
            {
                return (timestamp, now);
            }
        }
    }

    /// <param name="Timestamp">The counter at the last look.</param>
    /// <param name="Now">The clock then.</param>
    /// <param name="Back">How far the clock went back against the counter by moves that were no steps; at most 0.</param>
    /// <param name="Forward">How far forward; at least 0.</param>
    /// <param name="Last">The last entry's instant when the ledger was opened and nothing was looked at since; else null.</param>
    private readonly record struct State(long Timestamp, DateTimeOffset Now, TimeSpan Back, TimeSpan Forward, DateTimeOffset? Last);
}
