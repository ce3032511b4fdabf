using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;

namespace Stockseat.Ledger.Store;

/// <summary>
/// The instants of the entries, and the steps of the clock. Whoever sets the clock can't set the counter that runs beside it, so a difference between the two
/// means that the clock was set. A step found in a batch that was not committed is found again.
/// </summary>
public sealed class StepClock
{
    /// <summary>
    /// How far clock and counter may move apart without a step; one part in <see cref="Drift"/> of the time between is added. A free-running counter is wrong
    /// by some ten parts in a million, and a clock that is corrected without steps runs at most 500 parts in a million faster or slower; where both are
    /// corrected together, as on Linux, they agree. Anything more counts as a step, which is the safe side.
    /// </summary>
    public static readonly TimeSpan Slack = TimeSpan.FromSeconds(1);

    /// <summary>See <see cref="Slack"/>.</summary>
    public const int Drift = 2000;

    /// <summary>If the thread were held up between the two readings, it would see a step where there is none.</summary>
    private static readonly TimeSpan Sharp = TimeSpan.FromMilliseconds(10);

    private const int Tries = 10;

    private readonly TimeProvider _time;
    private State _state;
    private State _kept;

    /// <summary>Starts to watch.</summary>
    /// <param name="time">Clock and counter.</param>
    /// <param name="last">The instant of the last entry; null in a new ledger.</param>
    public StepClock(TimeProvider time, DateTimeOffset? last)
    {
        _time = time;
        var (timestamp, now) = Read();
        _kept = _state = new(timestamp, now, TimeSpan.Zero, TimeSpan.Zero, last);
    }

    /// <summary>The instant, cut to microseconds, and the step since the last look; null when there was none.</summary>
    public DateTimeOffset Look(out ClockStepBody? step)
    {
        var (timestamp, now) = Read();
        var elapsed = _time.GetElapsedTime(_state.Timestamp, timestamp);
        var drift = Max(TimeSpan.Zero, elapsed / Drift);
        var moved = now - _state.Now - elapsed;
        // Small moves add up, each direction by itself, minus the drift: otherwise many of them would make a step that nobody notices.
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

    /// <summary>Everything up to the last look is on the disk.</summary>
    public void Keep() => _kept = _state;

    /// <summary>
    /// What came since then is not on the disk: it is judged again, or, when the ledger was opened again, compared with the last entry that was found there.
    /// </summary>
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
    /// <param name="Now">The clock at that look.</param>
    /// <param name="Back">How far the clock has gone back against the counter, in moves too small to be steps; 0 or less.</param>
    /// <param name="Forward">How far it has gone forward; 0 or more.</param>
    /// <param name="Last">The instant of the last entry, when the ledger was opened and there was no look since; otherwise null.</param>
    private readonly record struct State(long Timestamp, DateTimeOffset Now, TimeSpan Back, TimeSpan Forward, DateTimeOffset? Last);
}
