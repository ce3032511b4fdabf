using System.Diagnostics;

namespace Stockseat.Load.Clients;

/// <summary>The time in which answers count.</summary>
internal readonly struct Window(TimeSpan span)
{
    private readonly long _begin = Stopwatch.GetTimestamp();

    public bool Open => Stopwatch.GetElapsedTime(_begin) < span;

    /// <summary>Runs workers side by side until the window closes; each returns how many answers came within it.</summary>
    public static async Task<double> Rate(TimeSpan span, int workers, Func<int, Window, Task<long>> work)
    {
        var window = new Window(span);
        var counts = await Task.WhenAll(Enumerable.Range(0, workers).Select(i => Task.Run(() => work(i, window))));
        return counts.Sum() / span.TotalSeconds;
    }
}
