namespace Stockseat.Plant.Forwarding;

/// <summary>How long to wait before the plant store is tried again.</summary>
public static class Pause
{
    /// <summary>The longest wait.</summary>
    public static readonly TimeSpan Longest = TimeSpan.FromSeconds(30);

    private static readonly TimeSpan First = TimeSpan.FromMilliseconds(500);

    /// <summary>The most doublings; further ones would change nothing, and an unlimited exponent would make the wait endless.</summary>
    private const int MostDoublings = 6;

    /// <summary>
    /// The wait doubles with each failure up to the longest; a random part of up to half is taken off, so that all cells of a plant do not come back in step.
    /// </summary>
    /// <param name="failures">How many attempts failed before this one, from 0.</param>
    /// <param name="chance">From 0 to 1.</param>
    public static TimeSpan After(int failures, double chance)
    {
        var whole = First * (1 << Math.Clamp(failures, 0, MostDoublings));
        return (whole < Longest ? whole : Longest) * (1 - (0.5 * Math.Clamp(chance, 0, 1)));
    }
}
