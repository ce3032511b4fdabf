namespace Stockseat.Service.Gauges;

/// <summary>How many lines a second are looked at: a token bucket over the clock.</summary>
/// <param name="time">The clock.</param>
/// <param name="perSecond">So many, and as many at once.</param>
public sealed class LineBudget(TimeProvider time, int perSecond)
{
    private double _left = perSecond;
    private long _filled = time.GetTimestamp();

    /// <summary>Takes one; false when there is none.</summary>
    public bool Take()
    {
        var now = time.GetTimestamp();
        _left = Math.Min(perSecond, _left + (time.GetElapsedTime(_filled, now).TotalSeconds * perSecond));
        _filled = now;
        if (_left < 1)
        {
            return false;
        }

        _left--;
        return true;
    }
}
