namespace Stockseat.Service.Gauges;

/// <summary>Limits how many lines a second are examined, with a token bucket.</summary>
/// <param name="time">The clock.</param>
/// <param name="perSecond">The number of lines a second, which is also the most at once.</param>
public sealed class LineBudget(TimeProvider time, int perSecond)
{
    private double _left = perSecond;
    private long _filled = time.GetTimestamp();

    /// <summary>Takes one line from the budget; false when none is left.</summary>
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
