using Stockseat.Ledger.Store;
using Stockseat.Ledger.Verifying;
using Stockseat.Load.Clients;
using Stockseat.Load.Servers;

namespace Stockseat.Load.Figures;

/// <summary>How long an answer takes when asks come at random, against one sync of the same disk.</summary>
internal static class LatencyFigures
{
    private const double ASecond = 1000;
    private const double SyncsAtMost = 5.5;

    // What people feel.
    private const double LongestMs = 20;

    public static async Task Measure(Run run)
    {
        var name = $"a locate in lines at {ASecond:F0} a second, arriving at random";
        var p99 = run.Results.Add($"p99 of {name}", "ms", "p99 of write 4 KiB + fsync", Goal.AtMost(SyncsAtMost));
        var p50 = run.Results.Add("p50 of the same", "ms", "p50 of the same", Goal.None);
        var max = run.Results.Add("the longest of the same", "ms", "the longest of the same", Goal.Within(LongestMs, "ms"));
        var read = run.Results.Add("the longest of the same, while the ledger is verified again and again", "ms", "the longest of the same without", Goal.Within(LongestMs, "ms"));
        var echoed = run.Results.Add("p99 of the unaudited echo, asked in the same way", "ms", "p99 of write 4 KiB + fsync", Goal.None);
        await using var echo = await Workplace.Echo(run.Token);
        var data = run.Place.NewLedger();
        await using var service = await run.Place.Serve(run.Plan.Program, data, run.Token);
        var (allAsks, allSyncs) = (new Latencies(), new Latencies());
        for (var round = 0; round <= run.Plan.Rounds; round++)
        {
            var asks = await RandomArrivals.Run(service.Line, ASecond, run.Plan.Span, run.Token);
            var echoes = await RandomArrivals.Run(echo.Line, ASecond, run.Plan.Span, run.Token);
            var beside = await BesideReader(run, service, data);
            var syncs = await Task.Factory.StartNew(() => BareSync.Run(run.Place.Folder, run.Plan.Span), run.Token, TaskCreationOptions.LongRunning, TaskScheduler.Default);
            if (round == 0)
            {
                continue; // for the run-time's own warming up
            }

            p99.Add(asks.Percentile(99), syncs.Percentile(99));
            echoed.Add(echoes.Percentile(99), syncs.Percentile(99));
            p50.Add(asks.Percentile(50), syncs.Percentile(50));
            max.Add(asks.Percentile(100), syncs.Percentile(100));
            read.Add(beside.Percentile(100), asks.Percentile(100));
            allAsks.Add(asks);
            allSyncs.Add(syncs);
        }

        run.Results.Note($"All rounds: asks: {allAsks.Summary()}; syncs: {allSyncs.Summary()}.");
        run.Results.Note(Histograms.Text("asks", allAsks, "syncs", allSyncs));
    }

    private static async Task<Latencies> BesideReader(Run run, Child service, string data)
    {
        using var ended = CancellationTokenSource.CreateLinkedTokenSource(run.Token);
        var reading = Task.Run(
            () =>
            {
                while (!ended.IsCancellationRequested)
                {
                    using var connection = LedgerFile.OpenReader(data);
                    LedgerVerifier.Verify(connection, CancellationToken.None);
                }
            },
            CancellationToken.None);
        var asks = await RandomArrivals.Run(service.Line, ASecond, run.Plan.Span, run.Token);
        await ended.CancelAsync();
        await reading;
        return asks;
    }
}
