using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

public abstract class StoppedTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : StoppedTests(Build.Ordinary);

    public sealed class Native() : StoppedTests(Build.Native);

    [Fact]
    public async Task Terminate_WithOpenIdleConnections_StopsCleanly()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        using var idle = await service.Connect();
        using var silent = await service.Connect();
        await idle.Ask("locate fixture=pinbed-1 diameter=92.40mm");

        var (exitCode, log) = await service.Terminate();

        Assert.Equal(0, exitCode);
        Assert.NotEmpty(log);
        Assert.DoesNotContain(log, l => l.TryGetProperty("@l", out var level) && level.GetString() is "Error" or "Fatal");
        Assert.Equal("service-stopped", LedgerRows.Read(cell.Data)[^1].Kind);
    }

    [Fact]
    public async Task Restart_AfterACleanStop_KeepsTheMeasurementAndReportsNoUncleanStop()
    {
        using var cell = new Cell();
        await using (var first = await Program.Serve(cell))
        {
            (await first.Ask("measured", "pinbed-1", "92.40mm")).Exits(0);
            await first.Terminate();
        }

        await using var second = await Program.Serve(cell);
        var answer = (await second.Ask("locate", "pinbed-1", "--json")).Exits(0).Object;

        Assert.Equal(0.0924, answer.GetProperty("diameter").GetDouble(), 1e-12);
        var rows = LedgerRows.Read(cell.Data);
        Assert.DoesNotContain(rows, r => r.Kind == "unclean-stop");
        Assert.Equal("measurement", rows[answer.GetProperty("measurement").GetInt32() - 1].Kind);
    }

    [Fact]
    public async Task Serve_DataFolderOfARunningService_Exits2()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);

        var second = await Program.RunWith(
            [("STOCKSEAT_LISTEN_GRPC", "127.0.0.1:0"), ("STOCKSEAT_LISTEN_PAGE", "none"), ("STOCKSEAT_LISTEN_LINE", "127.0.0.1:0")],
            "serve", "--config", cell.Config, "--data", cell.Data);

        second.Fails(2, "stop the other service, or name another folder with --data");
        Assert.Contains(cell.Data, second.Err, StringComparison.Ordinal);
        (await service.Ask("locate", "pinbed-1", "--diameter", "92.40mm")).Exits(0);
    }

    [Fact]
    public async Task Serve_PortInUse_Exits2AndLeavesTheLedgerIntact()
    {
        using var cell = new Cell();
        using var other = new Cell();
        await using var service = await Program.Serve(other);

        (string, string)[] listen = [("STOCKSEAT_LISTEN_GRPC", $"{service.Grpc}"), ("STOCKSEAT_LISTEN_LINE", "127.0.0.1:0"), ("STOCKSEAT_LISTEN_PAGE", "none")];
        (await Program.RunWith(listen, "serve", "--config", cell.Config, "--data", cell.Data)).Fails(2, $"{service.Grpc}");

        (await Program.Run("ledger", "verify", "--data", cell.Data)).Exits(0);
    }
}
