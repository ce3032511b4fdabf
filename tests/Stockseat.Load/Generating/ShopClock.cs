namespace Stockseat.Load.Generating;

/// <summary>
/// A clock that moves on by one step each time it is read. The writer reads it once an entry, between two readings of the counter. The counter moves with it,
/// right after the second reading. Other readings of the counter move nothing.
/// </summary>
internal sealed class ShopClock(DateTimeOffset start, TimeSpan step) : TimeProvider
{
    [ThreadStatic]
    private static bool _asking;

    private DateTimeOffset _now = start;
    private bool _read;

    public override long TimestampFrequency => TimeSpan.TicksPerSecond;

    /// <summary>Asks for a client that waits for nothing: an ask arrives at the very instant at which it is decided.</summary>
    public static T Ask<T>(Func<T> ask)
    {
        _asking = true;
        try
        {
            return ask();
        }
        finally
        {
            _asking = false;
        }
    }

    public override DateTimeOffset GetUtcNow()
    {
        _read = true;
        return _now;
    }

    public override long GetTimestamp()
    {
        // Asks come from a thread other than the writer's, and must not move the writer's counter.
        if (_asking)
        {
            return long.MaxValue;
        }

        var now = _now.Ticks;
        if (_read)
        {
            (_read, _now) = (false, _now + step);
        }

        return now;
    }
}
