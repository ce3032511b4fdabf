using System.Net.Sockets;
using System.Text.Json;
using Stockseat.EndToEnd.Support;
using Stockseat.Reliability.Support;
using Stockseat.Tests.Support;

namespace Stockseat.Reliability;

/// <summary>More connections than files may be open: some are let in, and the service has the files that it needs for itself.</summary>
public class OpenFilesTests
{
    private const int Limit = 900;
    private const int TooMany = 1050;
    private const string Ask = "locate fixture=pinbed-1 diameter=92.40mm tag=1";

    [Fact]
    public async Task Flood_BeyondTheLimitOfOpenFiles_LeavesTheServiceWhatItNeeds()
    {
        Needs.Programs("prlimit");
        using var cell = new Cell();
        await using var service = await Launched.Start(cell, null, ["prlimit", $"--nofile={Limit}:{Limit}"]);
        using var line = await service.Connect();
        Assert.Equal("ok", (await line.Ask(Ask)).Verdict);

        var flood = new List<Socket>();
        for (var i = 0; i < TooMany; i++)
        {
            var socket = new Socket(SocketType.Stream, ProtocolType.Tcp) { Blocking = false };
            flood.Add(socket);
            _ = socket.ConnectAsync(service.Line).ContinueWith(t => t.Exception, TaskScheduler.Default); // Those not let in yet wait in the system's queue.
        }

        var told = "";
        await Deadline.Until(
            () =>
            {
                told = flood.Select(Read).FirstOrDefault(t => t.Length > 0) ?? told;
                return told.Length > 0;
            },
            "a connection that is refused");
        Assert.Matches(@"^refused class=service reason=too-busy text=""there are [0-9]+ connections, the most that there may be", told);
        var before = (await line.Ask(Ask)).Serial;
        for (var i = 0; i < 100; i++)
        {
            Assert.Equal("ok", (await line.Ask(Ask)).Verdict);
        }

        cell.Publish("pinbed-1", 3, 4);
        await Deadline.Until(
            async () => (await line.Ask("status")).Text.Contains(" waiting=1 ", StringComparison.Ordinal),
            "the reading of a file that was published in the flood");
        flood.ForEach(s => s.Dispose());
        await Deadline.Until(async () => (await service.Ask("fixture", "list")).ExitCode == 0, "a new connection after the flood");

        Assert.Equal(0, await service.Terminate());
        var rows = LedgerRows.Read(cell.Data);
        Assert.Equal(before + 100, rows.Last(r => r.Kind == "answer").Serial);
        Assert.Equal("service-stopped", rows[^1].Kind);
        var advice = JsonDocument.Parse(Assert.Single((await service.Log()).Split('\n'),
            l => l.Contains("files may be open", StringComparison.Ordinal))).RootElement;
        Assert.Equal((Limit, 4000), (advice.GetProperty("Limit").GetInt32(), advice.GetProperty("Stated").GetInt32()));
        Assert.InRange(advice.GetProperty("Admitted").GetInt32(), 16, Limit - 256);
    }

    [Fact]
    public async Task Start_WithoutFilesForTheServiceItself_IsAFaultOfTheConfiguration()
    {
        Needs.Programs("prlimit");
        using var cell = new Cell();
        await using var service = Launched.Begin(cell, null, ["prlimit", "--nofile=400:400"]);

        Assert.Equal(64, await service.ExitCode());
        Assert.Matches("^Limits:Connections: this process may have 400 files open, but the service needs at least [0-9]+ ", await service.Log());
        Assert.False(Directory.Exists(cell.Data));
    }

    /// <summary>Everything sent on the connection so far.</summary>
    private static string Read(Socket socket)
    {
        var bytes = new byte[200];
        try
        {
            return socket.Connected && socket.Available > 0 ? System.Text.Encoding.ASCII.GetString(bytes, 0, socket.Receive(bytes)) : "";
        }
        catch (SocketException)
        {
            return "";
        }
    }
}
