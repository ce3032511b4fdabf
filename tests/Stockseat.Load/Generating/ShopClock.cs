namespace Stockseat.Load.Generating;

/// <summary>
/// A clock that goes on by one step each time that it is asked: the writer asks once an entry. Its counter goes with it; the writer reads that
/// before the clock and after it.
/// </summary>
internal sealed class ShopClock(DateTimeOffset start, TimeSpan step) : TimeProvider
{
    private DateTimeOffset _now = start;
    private bool _after = true;

    public override long TimestampFrequency => TimeSpan.TicksPerSecond;

    public override DateTimeOffset GetUtcNow() => _now;

    public override long GetTimestamp() => ((_after = !_after) ? _now : _now += step).Ticks;
}
