using System.Diagnostics;
using Stockseat.Load.Clients;
using Stockseat.Load.Servers;

namespace Stockseat.Load.Figures;

/// <summary>From the start of a process to its first answer, and how much memory it then uses; the baseline is the echo.</summary>
internal static class StartFigures
{
    private const int Connections = 64;
    private const int Answers = 10_000;
    private const double StartMs = 50;
    private const double ResidentMegabytes = 48;

    /// <summary>What one start took.</summary>
    private sealed record Started(double FirstAnswerMs, double ProcessorMs, double ReadyMegabytes, double LoadedMegabytes);

    public static async Task Measure(Run run)
    {
        var big = await run.BigToServe();
        await Measure(run, "start with an empty ledger", run.Plan.Service, null, Goal.None, Goal.Within(ResidentMegabytes, "MB"));
        await Measure(run, $"start with {run.Plan.Entries} entries", run.Plan.Service, big, Goal.Within(StartMs, "ms"), Goal.Within(ResidentMegabytes, "MB"));
        if (run.Plan.Ordinary is { } ordinary)
        {
            await Measure(run, "ordinary build, start with an empty ledger", ordinary, null, Goal.None, Goal.None);
            await Measure(run, $"ordinary build, start with {run.Plan.Entries} entries", ordinary, big, Goal.None, Goal.None);
        }
    }

    private static async Task Measure(Run run, string of, string program, string? big, Goal start, Goal resident)
    {
        var first = run.Results.Add(of, "to the first answer", "ms", "echo", start);
        var processor = run.Results.Add(of, "processor time until then", "ms", "echo");
        var ready = run.Results.Add(of, "memory resident then", "MB", "echo");
        var loaded = run.Results.Add(of, $"memory resident after {Answers} more", "MB", "echo", resident);
        // The first round puts the files into the system's cache.
        await run.Interleave(
            () => Start(() => run.Place.Serve(program, big ?? run.Place.NewLedger(), run.Token), run.Token),
            () => Start(run.Echo, run.Token),
            (a, b) =>
            {
                first.Add(a.FirstAnswerMs, b.FirstAnswerMs);
                processor.Add(a.ProcessorMs, b.ProcessorMs);
                ready.Add(a.ReadyMegabytes, b.ReadyMegabytes);
                loaded.Add(a.LoadedMegabytes, b.LoadedMegabytes);
            });
    }

    private static async Task<Started> Start(Func<Task<Child>> start, CancellationToken token)
    {
        var begin = Stopwatch.GetTimestamp();
        await using var child = await start();
        using (var client = await LineClient.Connect(child.Line, 0, token))
        {
            await client.Ask(token);
        }

        var (took, processor, ready) = (Stopwatch.GetElapsedTime(begin), child.ProcessorTime, child.ResidentMegabytes());
        await using var load = await LineLoad.Connect(child.Line, Connections, token);
        await load.AskAll(Answers, token);
        return new(took.TotalMilliseconds, processor.TotalMilliseconds, ready, child.ResidentMegabytes());
    }
}
