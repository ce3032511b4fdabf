using System.Diagnostics;
using System.Globalization;
using Stockseat.EndToEnd.Support;
using Stockseat.Reliability.Support;
using Stockseat.Tests.Support;

namespace Stockseat.Reliability;

/// <summary>The ledger rolls over under load, and the service is killed meanwhile: every client's history agrees with all the ledgers together.</summary>
public class RolledTests
{
    private const int Clients = 6;

    [Fact]
    public async Task Roll_UnderLoad_RefusesNobody_AndLosesNothing()
    {
        using var cell = new Cell();
        var history = new History();
        var rolls = Extent.Times(4, 40);
        await using var service = await Launched.Start(cell);
        var load = Load.Start(service.Line, Clients, history, "roll", Extent.Random().Next());
        for (var i = 0; i < rolls; i++)
        {
            await load.More(history, 100);
            (await service.Ask("ledger", "roll", "--by", "setter", "--why", "load")).Exits(0);
        }

        await load.More(history, 100);
        Assert.Equal(0, await service.Terminate());
        await load.End();

        var (asked, rows) = (history.Snapshot(), LedgerRows.Read(cell.Data));
        History.Agrees(asked, rows);
        Assert.Equal(2 * rolls, rows.Count(r => r.Kind == "rolled-over"));
        Assert.DoesNotContain(asked, a => a.Reply is { Verdict: "refused" } refused && refused["reason"] == "ledger-unavailable");
        (await Built.Ordinary.Run("ledger", "verify", "--data", cell.Data)).Exits(0);
    }

    [Fact]
    public async Task Roll_WhileAnotherProgramReads_IsPostponed_AndRefusesNobody()
    {
        Needs.Programs("python3");
        using var cell = new Cell();
        var history = new History();
        await using var service = await Launched.Start(cell);
        var load = Load.Start(service.Line, Clients, history, "read", Extent.Random().Next());
        await load.More(history, 50);

        // The check from the README, paused in the middle.
        const string Check = """
            import sqlite3, sys
            for row in sqlite3.connect(sys.argv[1]).execute("SELECT serial, CAST(body AS BLOB), hash FROM entry ORDER BY serial"):
                print("reading", flush=True)
                sys.stdin.read()
                break
            """;
        string[] arguments = ["-c", Check, Path.Combine(cell.Data, "ledger.db")];
        using (var reader = Process.Start(new ProcessStartInfo("python3", arguments) { RedirectStandardInput = true, RedirectStandardOutput = true })!)
        {
            Assert.Equal("reading", await reader.StandardOutput.ReadLineAsync().Within("the reader's first row"));
            await load.More(history, 50);
            (await service.Ask("ledger", "roll", "--by", "setter", "--why", "load"))
                .Fails(2, $"can't roll over now, and is continued: process {reader.Id} (python3) has been reading");
            await load.More(history, 100);
            Assert.Equal("", Closed(cell));
            reader.StandardInput.Close();
            await reader.Ends("the reader");
        }

        (await service.Ask("ledger", "roll", "--by", "setter", "--why", "load")).Exits(0);
        await load.More(history, 50);
        Assert.Equal(0, await service.Terminate());
        await load.End();

        History.Agrees(history.Snapshot(), LedgerRows.Read(cell.Data));
        Assert.DoesNotContain(history.Snapshot(), a => a.Reply is { Verdict: "refused" } refused && refused["reason"] == "ledger-unavailable");
        Assert.Contains("The ledger should roll over but could not, and goes on as it is", await service.Log(), StringComparison.Ordinal);
        (await Built.Ordinary.Run("ledger", "verify", "--data", cell.Data)).Exits(0);
    }

    [Fact]
    public async Task Kill_DuringARoll_LeavesOneLedgerForTheNextStart()
    {
        Needs.Linux();
        using var cell = new Cell();
        var (random, history) = (Extent.Random(), new History());
        for (var i = 0; i < Extent.Times(6, 100); i++)
        {
            await using var service = await Launched.Start(cell);
            var load = Load.Start(service.Line, Clients, history, string.Create(CultureInfo.InvariantCulture, $"roll{i}"), random.Next());
            await load.More(history, random.Next(1, 100));
            var before = Closed(cell);
            var roll = service.Ask("ledger", "roll", "--by", "setter", "--why", "load");
            await Deadline.Until(() => Closed(cell) != before, "the change in the folder of closed ledgers");
            Thread.SpinWait(random.Next(1_000_000));
            await service.Kill();
            await load.End();
            await roll;
        }

        await using var last = await Launched.Start(cell);
        var rows = LedgerRows.Read(cell.Data);
        History.Agrees(history.Snapshot(), rows);
        Assert.Equal(0, await last.Terminate());
        (await Built.Ordinary.Run("ledger", "verify", "--data", cell.Data)).Exits(0);
    }

    /// <summary>The names of the files there.</summary>
    private static string Closed(Cell cell)
    {
        var folder = Path.Combine(cell.Data, "closed");
        return Directory.Exists(folder) ? string.Join(' ', Directory.GetFiles(folder).Order(StringComparer.Ordinal)) : "";
    }
}
