using System.Globalization;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>A simulated cell, written in Python from the documents alone, runs loads against the service and counts what goes wrong.</summary>
public abstract class LoadWorldTests(Build build) : OnBothBuilds(build)
{
    private static readonly int Loads = Environment.GetEnvironmentVariable("STOCKSEAT_LONG") == "1" ? 10_000 : 120;

    public sealed class Ordinary() : LoadWorldTests(Build.Ordinary);

    public sealed class Native() : LoadWorldTests(Build.Native);

    [Fact]
    public async Task Nobody_picks_twice_or_picks_air_and_the_gripper_is_where_the_stock_is()
    {
        using var cell = new Cell();
        var seed = Random.Shared.Next(1_000_000_000);

        var run = await Python.RunFor(
            TimeSpan.FromSeconds(60 + (Loads / 2)), "load_world.py", Program.Path, cell.Folder, Loads.ToString(CultureInfo.InvariantCulture),
            seed.ToString(CultureInfo.InvariantCulture));

        Assert.True(run.ExitCode == 0, $"seed {seed}: {run.Out}{run.Err}");
        int Seen(string what) => run.Object.GetProperty(what).GetInt32();
        Assert.Equal((Loads, 0, 0, 0, 0), (Seen("loads"), Seen("air"), Seen("full"), Seen("beyond"), Seen("close")));
        Assert.True(Seen("within") >= 0.95 * Seen("picks"), $"seed {seed}: {run.Out}");
        Assert.All(["paused", "lost", "double", "killed", "mixed", "places"], what => Assert.True(Seen(what) > 0, $"seed {seed}: no {what}"));
        (await Program.Run("ledger", "verify", "--data", cell.Data)).Exits(0);
        Assert.True((await Program.Run("ledger", "replay", "--data", cell.Data, "--json")).Exits(0).Object.GetProperty("agrees").GetBoolean());
    }
}
