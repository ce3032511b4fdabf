namespace Stockseat.Load.Generating;

/// <summary>
/// A clock that goes on by one step each time that it is read: the writer reads it once an entry, between two looks at the counter. The counter goes with it,
/// right after the second look. Other looks at the counter move nothing.
/// </summary>
internal sealed class ShopClock(DateTimeOffset start, TimeSpan step) : TimeProvider
{
    [ThreadStatic]
    private static bool _asking;

    private DateTimeOffset _now = start;
    private bool _read;

    public override long TimestampFrequency => TimeSpan.TicksPerSecond;

    /// <summary>Asks on behalf of somebody who waits for nothing: what is asked comes at the very instant at which it is decided.</summary>
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
        // Whoever asks is on another thread than the writer, whose counter it must not move.
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
