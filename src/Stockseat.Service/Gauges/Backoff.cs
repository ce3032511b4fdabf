namespace Stockseat.Service.Gauges;

/// <summary>How long to wait before a gauge is called again.</summary>
public static class Backoff
{
    /// <summary>The longest wait.</summary>
    public static readonly TimeSpan Longest = TimeSpan.FromSeconds(30);

    private static readonly TimeSpan First = TimeSpan.FromMilliseconds(500);

    /// <summary>The most doublings; further ones would change nothing, and an unlimited exponent would make the wait endless.</summary>
    private const int MostDoublings = 6;

    /// <summary>
    /// The wait doubles with each attempt up to the longest; a random part of up to half is taken off, so that many services do not call in step.
    /// </summary>
    /// <param name="attempt">How many attempts failed before, from 0.</param>
    /// <param name="chance">From 0 to 1.</param>
    public static TimeSpan Before(int attempt, double chance)
    {
        var whole = First * (1 << Math.Clamp(attempt, 0, MostDoublings));
        return (whole < Longest ? whole : Longest) * (1 - (0.5 * Math.Clamp(chance, 0, 1)));
    }
}
