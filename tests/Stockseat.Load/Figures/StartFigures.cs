using System.Diagnostics;
using Stockseat.Load.Clients;
using Stockseat.Load.Servers;

namespace Stockseat.Load.Figures;

/// <summary>From the start of a process to its first answer, and what it then holds in memory; the baseline is the echo of this program.</summary>
internal static class StartFigures
{
    private const int Connections = 64;
    private const int Answers = 10_000;
    private const double StartMs = 50;
    private const double ResidentMegabytes = 48;

    /// <summary>What one start took.</summary>
    private sealed record Measured(double FirstAnswerMs, double ReadyMegabytes, double LoadedMegabytes);

    public static async Task Measure(Run run, string big)
    {
        if (run.Plan.Native is { } native)
        {
            await Measure(run, "native", native, null, Goal.None);
            await Measure(run, "native", native, big, Goal.Within(StartMs, "ms"));
        }
        else
        {
            run.Results.Leave("start and memory of the native program", "name it with --native; dotnet publish -c Release -r linux-x64 -o DIR src/Stockseat makes it");
        }

        await Measure(run, "ordinary", run.Plan.Ordinary, null, Goal.None);
        await Measure(run, "ordinary", run.Plan.Ordinary, big, Goal.None);
    }

    private static async Task Measure(Run run, string build, string program, string? big, Goal start)
    {
        var what = $"{build}, {(big is null ? "empty ledger" : $"{run.Plan.Entries} entries")}";
        var resident = build == "native" ? Goal.Within(ResidentMegabytes, "MB") : Goal.None;
        var first = run.Results.Add($"{what}: start to first answer", "ms", "echo, ordinary", start);
        var ready = run.Results.Add($"{what}: resident at its first answer", "MB", "echo, ordinary", Goal.None);
        var loaded = run.Results.Add($"{what}: resident after {Answers} more", "MB", "echo, ordinary", resident);
        for (var round = 0; round <= run.Plan.Rounds; round++)
        {
            var subject = await Start(() => run.Place.Serve(program, big ?? run.Place.NewLedger(), run.Token), run.Token);
            var baseline = await Start(() => Workplace.Echo(run.Token), run.Token);
            if (round == 0)
            {
                continue; // for the files to be in the system's cache
            }

            first.Add(subject.FirstAnswerMs, baseline.FirstAnswerMs);
            ready.Add(subject.ReadyMegabytes, baseline.ReadyMegabytes);
            loaded.Add(subject.LoadedMegabytes, baseline.LoadedMegabytes);
        }
    }

    private static async Task<Measured> Start(Func<Task<Child>> start, CancellationToken token)
    {
        var begin = Stopwatch.GetTimestamp();
        await using var child = await start();
        using (var client = await LineClient.Connect(child.Line, 0, token))
        {
            await client.Ask(token);
        }

        var (took, ready) = (Stopwatch.GetElapsedTime(begin), child.ResidentMegabytes());
        await using var load = await LineLoad.Connect(child.Line, Connections, token);
        await load.Ask(Answers, token);
        return new(took.TotalMilliseconds, ready, child.ResidentMegabytes());
    }
}
