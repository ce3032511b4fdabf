using System.Net;
using System.Net.Sockets;
using System.Text;
using System.Text.Json;
using Stockseat.EndToEnd.Support;
using Stockseat.Reliability.Support;
using Stockseat.Tests.Support;

namespace Stockseat.Reliability;

/// <summary>SIGTERM with everything open, and the messages to a supervisor.</summary>
public class TerminatedTests
{
    private const int Pipelined = 2000;

    [Fact]
    public async Task Terminate_WithQueuesAndAWatchOpen_DrainsAndExits0()
    {
        Needs.Linux();
        using var cell = new Cell();
        await using var service = await Launched.Start(cell);
        using var idle = await service.Connect();
        using var watch = Tool.Start(Repository.Program, ["ledger", "tail", "--follow", "--json", "--count", "1", "--server", $"http://{service.Grpc}"]);
        try
        {
            Assert.NotNull(await watch.StandardOutput.ReadLineAsync().Within("the newest entry"));
            var watched = watch.StandardOutput.ReadToEndAsync();
            var queues = await Task.WhenAll(Enumerable.Range(0, 4).Select(i => Queue.Open(service.Line, $"queue{i}")));

            // The first reply is here and the others are on their way.
            await Task.WhenAll(queues.Select(q => q.First));
            var exitCode = await service.Terminate();
            var asked = (await Task.WhenAll(queues.Select(q => q.All))).SelectMany(a => a).ToList();

            Assert.Equal(0, exitCode);
            var rows = LedgerRows.Read(cell.Data);
            Extent.Say($"{asked.Count(a => a.IsOk)} of {4 * Pipelined} asks answered, {asked.Count(a => a.Reply!.Verdict == "refused")} refused");
            Assert.True(asked.Count(a => a.IsOk) is > 0 and < 4 * Pipelined, "the stop did not come in the middle of the asks");
            History.Agrees(asked, rows);
            Assert.Equal("service-stopped", rows[^1].Kind);
            Assert.Single(rows, r => r.Kind == "service-stopped");
            (await Built.Ordinary.Run("ledger", "verify", "--data", cell.Data)).Exits(0);

            // The watch was open to the end, was ended, and showed only entries that exist.
            Assert.Contains("shutting-down", await watch.StandardError.ReadToEndAsync().Within("the end of the watch"), StringComparison.Ordinal);
            var shown = (await watched.Within("the end of the entries shown")).Split('\n', StringSplitOptions.RemoveEmptyEntries)
                .Select(l => JsonSerializer.Deserialize<JsonElement>(l).GetProperty("serial").GetInt32()).ToList();
            Assert.Equal(Enumerable.Range(shown.FirstOrDefault(), shown.Count), shown);
            Assert.InRange(shown.LastOrDefault(), 0, rows.Count);
        }
        finally
        {
            watch.Kill();
        }
    }

    [Fact]
    public async Task Supervisor_HearsReady_OnlyWhenTheServiceCanAnswer_AndStopping()
    {
        Needs.Linux();
        using var cell = new Cell();
        using var supervisor = new NotifySocket(Path.Combine(cell.Folder, "notify"));
        var line = new IPEndPoint(IPAddress.Loopback, FreePort());
        await using var service = Launched.Begin(cell, null, null, ("NOTIFY_SOCKET", supervisor.Path), ("STOCKSEAT_LISTEN_LINE", $"{line}"));

        Assert.Contains("READY=1", await supervisor.Next(), StringComparison.Ordinal);
        using (var socket = await LineSocket.Connect(line))
        {
            Assert.Equal("ok", (await socket.Ask("locate fixture=pinbed-1 diameter=92.40mm tag=at-once")).Verdict);
        }

        Assert.True(await service.Ready());
        Assert.True(supervisor.IsEmpty, "the supervisor got a message between ready and the stop");
        Assert.Equal(0, await service.Terminate());
        Assert.Contains("STOPPING=1", await supervisor.Next(), StringComparison.Ordinal);
        Assert.Equal("service-stopped", LedgerRows.Read(cell.Data)[^1].Kind);
    }

    [Fact]
    public async Task Supervisor_OfAServiceThatCantWriteItsLedger_HearsThatItRefuses()
    {
        await Needs.Strace();
        using var cell = new Cell();
        using var supervisor = new NotifySocket(Path.Combine(cell.Folder, "notify"));
        var log = Path.Combine(cell.Folder, "strace.log");
        await using var service = Launched.Begin(cell, null, Strace.Inject(log, "fsync,fdatasync", "error=EIO"), ("NOTIFY_SOCKET", supervisor.Path));

        Assert.True(await service.Waits());
        Assert.Equal("READY=1", await supervisor.Next());
        Assert.StartsWith("STATUS=Every ask is refused", await supervisor.Next(), StringComparison.Ordinal);
        Assert.False(service.SaidReady);
        Assert.Equal(2, await service.Terminate());
        Assert.NotEqual(0, Strace.Injected(await Strace.Read(log, service.Id)));
    }

    /// <summary>A port that is free now; the system does not hand it out again soon.</summary>
    private static int FreePort()
    {
        using var socket = new Socket(SocketType.Stream, ProtocolType.Tcp);
        socket.Bind(new IPEndPoint(IPAddress.Loopback, 0));
        return ((IPEndPoint)socket.LocalEndPoint!).Port;
    }

    /// <summary>A connection on which many asks are sent at once, with everything that came back until its end.</summary>
    private sealed class Queue
    {
        private readonly TaskCompletionSource _first = new(TaskCreationOptions.RunContinuationsAsynchronously);

        private Queue(Socket socket, string name) => All = Run(socket, name);

        public Task First => _first.Task.Within("the first reply");

        public Task<List<Asked>> All { get; }

        public static async Task<Queue> Open(IPEndPoint endpoint, string name)
        {
            var socket = new Socket(SocketType.Stream, ProtocolType.Tcp) { NoDelay = true };
            await socket.ConnectAsync(endpoint).Within($"a connection to {endpoint}");
            return new(socket, name);
        }

        private async Task<List<Asked>> Run(Socket socket, string name)
        {
            using var stream = new NetworkStream(socket, ownsSocket: true);
            using var reader = new StreamReader(stream, Encoding.ASCII);
            var lines = string.Concat(Enumerable.Range(0, Pipelined).Select(i => $"locate fixture=pinbed-1 diameter=92.40mm tag={name}-{i}\n"));
            var sent = stream.WriteAsync(Encoding.ASCII.GetBytes(lines)).AsTask();
            var asked = new List<Asked>();
            try
            {
                // A reader treats the end of the stream as the end of a line: only a complete reply counts.
                while (await reader.ReadLineAsync().Within($"a reply or the end of {name}") is { } text
                    && (text.EndsWith(" end", StringComparison.Ordinal) || text.EndsWith('"')))
                {
                    asked.Add(new(name, $"{name}-{asked.Count}", new(text)));
                    Assert.Equal(asked[^1].Tag, asked[^1].Reply!["tag"]);
                    _first.TrySetResult();
                }

                await sent.Within("the sending of the asks");
            }
            catch (Exception e) when (e is IOException or SocketException)
            {
                // The part that the service had not read when it stopped.
            }

            return asked;
        }
    }
}
