using System.Diagnostics;
using Stockseat.Load.Figures;

namespace Stockseat.Load.Clients;

/// <summary>The period in which answers count.</summary>
internal static class Window
{
    /// <summary>All clients ask, side by side, until the period is over.</summary>
    public static async Task<Asked> Run(ILoad load, TimeSpan span, CancellationToken token)
    {
        var latencies = new Latencies();
        var begin = Stopwatch.GetTimestamp();
        var within = await Task.WhenAll(Enumerable.Range(0, load.Clients).Select(client => Task.Run(() => Client(client), token)));
        return new(within.Sum() / span.TotalSeconds, within.Sum() + load.Clients, latencies);

        async Task<long> Client(int client)
        {
            for (var answers = 0L; ; answers++)
            {
                var asked = Stopwatch.GetTimestamp();
                await load.Ask(client, token);
                var answered = Stopwatch.GetTimestamp();
                latencies.Add(Stopwatch.GetElapsedTime(asked, answered));
                if (Stopwatch.GetElapsedTime(begin, answered) >= span)
                {
                    return answers; // The last answer came late.
                }
            }
        }
    }
}
