using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>The service's job from end to end: what was served is what the ledger says, and a change to the ledger is found.</summary>
public abstract class ServedAndLoggedTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : ServedAndLoggedTests(Build.Ordinary);

    public sealed class Native() : ServedAndLoggedTests(Build.Native);

    [Fact]
    public async Task Locate_OverAPlainSocket_GivesTheShiftAndTheOrigin()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        using var socket = await service.Connect();

        var measured = await socket.Ask("measured fixture=pinbed-1 diameter=3.638in gauge=bench-2 lot=A1077 tag=18");
        Assert.Equal($"ok tag=18 serial={measured.Serial} fixture=pinbed-1 diameter=0.092405", measured.Text);
        var answer = await socket.Ask("locate fixture=pinbed-1 diameter=92.40mm tag=17");

        Assert.StartsWith(
            $"ok tag=17 serial={measured.Serial + 1} fixture=pinbed-1 revision=3 purpose=pick nest=0,0 diameter=0.092400 unit=m first=yes ", answer.Text,
            StringComparison.Ordinal);
        Assert.EndsWith(" end", answer.Text, StringComparison.Ordinal);
        Assert.Equal((BedPick.Bx, BedPick.By, BedPick.Bz), (answer["bx"], answer["by"], answer["bz"]));
        Assert.Equal((BedPick.X, BedPick.Y, BedPick.Z), (answer["x"], answer["y"], answer["z"]));
    }

    [Fact]
    public async Task LedgerTail_AfterAnAnswer_HasRevisionDigestMeasurementAndClient()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        using var socket = await service.Connect();
        var measured = await socket.Ask("measured fixture=pinbed-1 diameter=3.638in gauge=bench-2 lot=A1077");
        var answer = await socket.Ask("locate fixture=pinbed-1 lot=A1077 tag=19");
        Assert.Equal(measured["serial"], answer["measurement"]);

        var entries = (await service.Ask("ledger", "tail", "--json")).Exits(0).Lines;
        var shown = (await service.Ask("fixture", "show", "pinbed-1", "--json")).Exits(0).Object;

        var entry = entries[^1];
        Assert.Equal(answer.Serial, entry.GetProperty("serial").GetInt64());
        var body = entry.GetProperty("body");
        Assert.Equal("answer", body.GetProperty("kind").GetString());
        Assert.Equal(3, body.GetProperty("revision").GetInt32());
        Assert.Equal(shown.GetProperty("digest").GetString(), body.GetProperty("digest").GetString());
        Assert.Matches("^[0-9a-f]{64}$", body.GetProperty("digest").GetString()!);
        Assert.Equal(measured.Serial, body.GetProperty("measurement").GetInt64());
        Assert.Equal("bench", body.GetProperty("client").GetString());
        Assert.Equal("19", body.GetProperty("tag").GetString());
        Served.Is(answer, body);
        Assert.Equal((await Program.Run("ledger", "tail", "--json", "--data", cell.Data)).Exits(0).Out, (await service.Ask("ledger", "tail", "--json")).Out);
    }

    [Fact]
    public async Task LedgerVerify_RunningAndStopped_IsIntact()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        using (var socket = await service.Connect())
        {
            await socket.Ask("locate fixture=pinbed-1 diameter=92.40mm");
        }

        Assert.StartsWith("intact: ", (await service.Ask("ledger", "verify")).Exits(0).Out, StringComparison.Ordinal);
        var running = (await Program.Run("ledger", "verify", "--json", "--data", cell.Data)).Exits(0).Object;
        Assert.Equal(0, (await service.Terminate()).ExitCode);
        var stopped = (await Program.Run("ledger", "verify", "--json", "--data", cell.Data)).Exits(0).Object;

        Assert.True(stopped.GetProperty("whole").GetBoolean());
        // A stop writes a snapshot, and the stop itself.
        Assert.Equal(running.GetProperty("entries").GetInt64() + 2, stopped.GetProperty("entries").GetInt64());
        Assert.Equal(running.GetProperty("ledger").GetString(), stopped.GetProperty("ledger").GetString());
        LedgerRows.Read(cell.Data);
    }

    [Fact]
    public async Task LedgerVerify_OneDigitChanged_SaysWhere()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        long serial;
        using (var socket = await service.Connect())
        {
            serial = (await socket.Ask("locate fixture=pinbed-1 diameter=92.40mm")).Serial;
            await socket.Ask("locate fixture=pinbed-1 diameter=91.80mm");
        }

        LedgerRows.ChangeOneDigit(cell.Data, serial);
        var running = (await service.Ask("ledger", "verify")).Exits(1);
        await service.Terminate();
        var stopped = (await Program.Run("ledger", "verify", "--data", cell.Data)).Exits(1);
        var json = (await Program.Run("ledger", "verify", "--json", "--data", cell.Data)).Exits(1).Object;

        Assert.StartsWith($"fault at entry {serial}: edited: ", running.Out, StringComparison.Ordinal);
        Assert.StartsWith($"fault at entry {serial}: edited: ", stopped.Out, StringComparison.Ordinal);
        Assert.Equal(serial, Assert.Single(json.GetProperty("faults").EnumerateArray()).GetProperty("serial").GetInt64());
    }

    [Fact]
    public async Task LedgerCommands_NoLedger_Exit2()
    {
        using var cell = new Cell();
        foreach (var command in (string[])["verify", "tail", "list"])
        {
            (await Program.Run("ledger", command, "--data", cell.Data)).Fails(2, "there is no ledger.db in ");
        }

        Assert.False(Directory.Exists(cell.Data));
    }
}
