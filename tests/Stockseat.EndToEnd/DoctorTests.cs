using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>The doctor beside a running service and without one; and its exit codes.</summary>
public abstract class DoctorTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : DoctorTests(Build.Ordinary);

    public sealed class Native() : DoctorTests(Build.Native);

    [Fact]
    public async Task BesideARunningService_AndAfterIt_NothingIsWrong()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        var ports = new[] { ("STOCKSEAT_LISTEN_GRPC", $"{service.Grpc}"), ("STOCKSEAT_LISTEN_LINE", $"{service.Line}") };

        var runs = await Doctor(0, cell, ports);
        Assert.Contains("good    Listen:Line", runs.Out, StringComparison.Ordinal);
        Assert.Contains("is listening", runs.Out, StringComparison.Ordinal);
        Assert.Contains("revision 3 is in effect", runs.Out, StringComparison.Ordinal);
        Assert.Contains("0 wrong", runs.Out, StringComparison.Ordinal);

        await service.Terminate();
        var after = await Doctor(0, cell, ports);
        Assert.Contains("is free", after.Out, StringComparison.Ordinal);
        Assert.DoesNotContain("did not stop cleanly", after.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AfterAKill_TheUncleanStopIsTold_AndAnEditedEntryIsAFault()
    {
        using var cell = new Cell();
        await using (var service = await Program.Serve(cell))
        {
            await service.Kill();
        }

        Assert.Contains("did not stop cleanly", (await Doctor(0, cell)).Out, StringComparison.Ordinal);
        LedgerRows.ChangeOneDigit(cell.Data, 3);

        var run = await Program.Run("doctor", "--json", "--config", cell.Config, "--data", cell.Data);
        var ledger = Assert.Single(run.Exits(1).Lines, l => l.GetProperty("result").GetString() == "wrong");
        Assert.Equal("ledger", ledger.GetProperty("about").GetString());
        Assert.StartsWith("entry 3 does not follow", ledger.GetProperty("text").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task AClockBehindTheLastEntry_IsAFault()
    {
        Assert.SkipWhen(FakeTime.Library is null, "libfaketime is not installed; tests/run installs it where it can");
        using var cell = new Cell();
        await using (var service = await Program.Serve(cell))
        {
            await service.Terminate();
        }

        var run = await Doctor(1, cell, ("LD_PRELOAD", FakeTime.Library!), ("FAKETIME", "-2h"));
        Assert.Contains("before the last entry of", run.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AFileThatIsNoLedger_CouldNotBeChecked()
    {
        using var cell = new Cell();
        cell.Write("data/ledger.db", "no database");

        Assert.Contains("unchecked  ledger", (await Doctor(2, cell)).Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task FaultsOfTheConfiguration_Exit64()
    {
        using var cell = new Cell();
        (await Program.Run("doctor", "--config", cell.Write("config/broken.json", "{ \"Colour\": 1 }"))).Fails(64, "Colour");
        Assert.False(Directory.Exists(cell.Data));
    }

    private async Task<Run> Doctor(int code, Cell cell, params (string Name, string Value)[] environment) =>
        (await Program.RunWith([("STOCKSEAT_LISTEN_GRPC", "127.0.0.1:0"), ("STOCKSEAT_LISTEN_LINE", "127.0.0.1:0"), .. environment],
            "doctor", "--config", cell.Config, "--data", cell.Data)).Exits(code);
}
