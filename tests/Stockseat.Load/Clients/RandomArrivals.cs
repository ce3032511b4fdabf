using System.Collections.Concurrent;
using System.Diagnostics;
using System.Net;
using Stockseat.Load.Figures;

namespace Stockseat.Load.Clients;

/// <summary>
/// Asks that arrive at random (Poisson) at a given rate, whether earlier ones are answered or not. A latency is counted from the instant at
/// which the ask was due: a client that sends late because an answer is late can't hide the delay.
/// </summary>
internal static class RandomArrivals
{
    private const int Connections = 64;

    // More than a reply takes when a server hangs.
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);

    public static async Task<Latencies> Run(IPEndPoint server, double aSecond, TimeSpan span, CancellationToken token)
    {
        var latencies = new Latencies();
        var lines = new List<Line>();
        try
        {
            for (var i = 0; i < Connections; i++)
            {
                lines.Add(new(await LineClient.Connect(server, i, token), latencies));
            }

            var sending = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
            var received = lines.Select(l => l.Receive(sending.Task, token)).ToList();
            await Task.Factory.StartNew(() => Send(lines, aSecond, span), token, TaskCreationOptions.LongRunning, TaskScheduler.Default);
            sending.SetResult();
            lines.ForEach(l => l.Wake());
            await Task.WhenAll(received).WaitAsync(Patience, token);
            return latencies;
        }
        finally
        {
            lines.ForEach(l => l.Dispose());
        }
    }

    /// <summary>On a thread of its own, which sleeps in fractions of a millisecond.</summary>
    private static void Send(List<Line> lines, double aSecond, TimeSpan span)
    {
        var begin = Stopwatch.GetTimestamp();
        var at = TimeSpan.Zero;
        for (var i = 0; ; i++)
        {
            at += TimeSpan.FromSeconds(-Math.Log(1 - Random.Shared.NextDouble()) / aSecond);
            if (at >= span)
            {
                return;
            }

            Native.Sleep(at - Stopwatch.GetElapsedTime(begin));
            lines[i % lines.Count].Send(begin + (long)(at.TotalSeconds * Stopwatch.Frequency));
        }
    }

    /// <summary>A connection, and when the asks in flight on it were due.</summary>
    private sealed class Line(LineClient client, Latencies latencies) : IDisposable
    {
        private readonly ConcurrentQueue<long> _intended = new();

        public void Send(long intended)
        {
            _intended.Enqueue(intended);
            client.Send();
        }

        /// <summary>One more ask that does not count: it shows the receiver that sending is over.</summary>
        public void Wake() => client.Send();

        public async Task Receive(Task sending, CancellationToken token)
        {
            while (true)
            {
                var ended = await client.Receive(token);
                var now = Stopwatch.GetTimestamp();
                for (var i = 0; i < ended; i++)
                {
                    if (!_intended.TryDequeue(out var intended))
                    {
                        await sending;
                        return;
                    }

                    latencies.Add(Stopwatch.GetElapsedTime(intended, now));
                }

                if (ended == 0)
                {
                    throw new IOException("the server ended the connection");
                }
            }
        }

        public void Dispose() => client.Dispose();
    }
}
