using System.Globalization;
using System.Text.Json;
using Stockseat.EndToEnd.Support;
using Stockseat.Reliability.Support;

namespace Stockseat.Reliability;

/// <summary>
/// A random mixture of clients, gauges, kills, rolls, clock steps and outages. Its checker is independent Python (<c>mixture/</c>), written from the
/// documents: it never asks the service what is right.
/// </summary>
public class MixtureTests
{
    private static readonly TimeSpan Checking = TimeSpan.FromMinutes(5);

    private static string Scripts { get; } = Path.Combine(Repository.Root, "tests", "Stockseat.Reliability", "mixture");

    [Fact]
    public async Task Mixture_BreaksNoRuleOfTheDocuments()
    {
        Needs.Linux();
        using var cell = new Cell();
        var stubs = Path.Combine(cell.Folder, "stubs");
        await Python.Generate(stubs);
        await using var disk = Environment.IsPrivilegedProcess ? await SmallDisk.Make("tmpfs", "", cell.Data) : null;
        var library = FakeTime.Library;
        var seed = Extent.Seed();
        var seconds = Extent.Times(60, 600);
        string[] clock = library is null ? [] : ["--faketime", library];

        var run = await Python.RunFor(
            TimeSpan.FromSeconds(2 * seconds) + Checking, Path.Combine(Scripts, "mixture.py"),
            [Repository.Program, cell.Folder, stubs, "--seed", Text(seed), "--seconds", Text(seconds), .. clock]);

        Extent.Say(run.Out);
        Assert.True(run.ExitCode == 0, $"exit code {run.ExitCode}\n{run.Out}\n{run.Err}");
        var said = JsonSerializer.Deserialize<JsonElement>(run.Out.TrimEnd().Split('\n')[^1]);
        List<string> faults = ["kill", "stop", "roll", "half-collected", "same-hold", "same-emptied", "hasty-pushes"];
        faults.AddRange(disk is null ? [] : ["outage", "late-readings"]);
        faults.AddRange(library is null ? [] : ["clock-back", "clock-forward"]);
        Assert.All(faults, f => Assert.True(said.GetProperty("happened").TryGetProperty(f, out _), $"{f} did not happen; try another seed"));
        string[] verbs = ["locate", "measured", "emptied", "confirm", "done", "hold", "release", "adopt", "roll"];
        Assert.All(verbs, v => Assert.True(said.GetProperty("acknowledged").TryGetProperty(v, out _), $"no {v} was acknowledged"));
    }

    [Fact]
    public async Task Checker_NamesEveryDoctoredFault() => (await Python.Run(Path.Combine(Scripts, "selftest.py"))).Exits(0);

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);
}
