using Microsoft.Win32.SafeHandles;
using Stockseat.Load.Clients;
using Stockseat.Load.Servers;

namespace Stockseat.Load.Figures;

/// <summary>How long an answer takes when asks come at random, compared with the echo asked in the same way and with a sync of the same disk.</summary>
internal static class PaceFigures
{
    private const double ASecond = 1000;

    // How much longer than the echo's an answer may take.
    private const double Syncs = 3;

    // The delay that people notice.
    private const double LongestMs = 20;

    // A 99.9th percentile needs ten thousand asks.
    private static readonly TimeSpan LeastSpan = TimeSpan.FromSeconds(10);

    /// <summary>What one round found.</summary>
    private sealed record Round(
        Latencies Asks, double AskMicroseconds, Latencies Echoes, double EchoMicroseconds, Latencies Reading, Latencies Syncs, Latencies FullSyncs);

    public static async Task Measure(Run run)
    {
        await using var echo = await run.Echo();
        var data = run.Place.NewLedger();
        await using var service = await run.Serve(data);
        await Asked(run, service, run.Plan.WarmUp);
        await Asked(run, echo, run.Plan.WarmUp);
        var rows = new Rows(run.Results);
        var rounds = new List<Round>();
        var span = run.Plan.Span > LeastSpan ? run.Plan.Span : LeastSpan;
        for (var i = 0; i < run.Plan.Rounds; i++)
        {
            var (asks, ask) = await Asked(run, service, span);
            var syncs = await Synced(run, Native.SyncData);
            var (echoes, one) = await Asked(run, echo, span);
            var full = await Synced(run, RandomAccess.FlushToDisk);
            rounds.Add(new(asks, ask, echoes, one, await BesideReader(run, service, data, span), syncs, full));
            rows.Add(rounds[^1]);
        }

        var (allAsks, allSyncs) = (All(rounds, r => r.Asks), All(rounds, r => r.Syncs));
        run.Results.Note($"""
            Pace, all rounds together: asks: {allAsks.Summary()}; echo: {All(rounds, r => r.Echoes).Summary()}.
            A sync of that disk after writing 4 KiB: fdatasync: {allSyncs.Summary()};
            fsync, as SQLite's library calls it: {All(rounds, r => r.FullSyncs).Summary()}.
            """);
        run.Results.Note(Histograms.Text("asks", allAsks, "syncs", allSyncs));
    }

    private static async Task<(Latencies Latencies, double ProcessorMicroseconds)> Asked(Run run, Child server, TimeSpan span)
    {
        var before = server.ProcessorTime;
        var latencies = await RandomArrivals.Run(server.Line, ASecond, span, run.Token);
        return (latencies, (server.ProcessorTime - before).TotalMicroseconds / latencies.Count);
    }

    private static Task<Latencies> Synced(Run run, Action<SafeFileHandle> sync) => Task.Factory.StartNew(
        () => BareSync.Run(run.Place.Folder, run.Plan.Span, sync), run.Token, TaskCreationOptions.LongRunning, TaskScheduler.Default);

    private static async Task<Latencies> BesideReader(Run run, Child service, string data, TimeSpan span)
    {
        var asks = RandomArrivals.Run(service.Line, ASecond, span, run.Token);
        while (!asks.IsCompleted)
        {
            await Command.Run(run.Plan.Service, ["ledger", "verify", "--data", data], run.Token);
        }

        return await asks;
    }

    private static Latencies All(List<Round> rounds, Func<Round, Latencies> of)
    {
        var all = new Latencies();
        rounds.ForEach(r => all.Add(of(r)));
        return all;
    }

    /// <summary>The figures, to which a round adds.</summary>
    private sealed class Rows
    {
        private static readonly (string Name, double Percent)[] Percentiles = [("p50", 50), ("p99", 99), ("p99.9", 99.9), ("the longest", 100)];

        private readonly Figure _limit;
        private readonly Figure _processor;
        private readonly Figure _reading;
        private readonly (double Percent, Figure Echo, Figure Sync)[] _percentiles;

        public Rows(Results results)
        {
            var of = $"locate in lines, {ASecond:F0} a second at random";
            _limit = results.Add(of, "p99, held to its limit", "ms", $"the echo's p99 and {Syncs:F0} times a sync's p99", Goal.AtMost(1));
            var echoes = Percentiles.Select(p => results.Add(of, p.Name, "ms", "echo", p.Percent == 100 ? Goal.Within(LongestMs, "ms") : Goal.None)).ToArray();
            _processor = results.Add(of, "processor time an answer", "µs", "echo");
            var syncs = Percentiles.Select(p => results.Add(of, p.Name, "ms", "write 4 KiB and fdatasync")).ToArray();
            _reading = results.Add(of, "the longest, while verified again and again", "ms", "the longest without", Goal.Within(LongestMs, "ms"));
            _percentiles = [.. Percentiles.Select((p, i) => (p.Percent, echoes[i], syncs[i]))];
        }

        public void Add(Round round)
        {
            _limit.Add(round.Asks.Percentile(99), round.Echoes.Percentile(99) + Syncs * round.Syncs.Percentile(99));
            foreach (var (percent, echo, sync) in _percentiles)
            {
                var ask = round.Asks.Percentile(percent);
                echo.Add(ask, round.Echoes.Percentile(percent));
                sync.Add(ask, round.Syncs.Percentile(percent));
            }

            _processor.Add(round.AskMicroseconds, round.EchoMicroseconds);
            _reading.Add(round.Reading.Percentile(100), round.Asks.Percentile(100));
        }
    }
}
