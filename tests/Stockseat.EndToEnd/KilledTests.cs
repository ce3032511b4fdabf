using System.Collections.Concurrent;
using System.Globalization;
using Stockseat.EndToEnd.Support;
using Stockseat.Tests.Support;

namespace Stockseat.EndToEnd;

/// <summary>SIGKILL under load. It proves nothing about a power cut: the system's cache survives a killed process.</summary>
public abstract class KilledTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : KilledTests(Build.Ordinary);

    public sealed class Native() : KilledTests(Build.Native);

    private const int Rounds = 5;
    private const int Sockets = 6;

    [Fact]
    public async Task Kill_UnderLoad_LosesNothingThatAClientReceived()
    {
        using var cell = new Cell();
        var received = new ConcurrentBag<LineReply>();
        for (var round = 0; round < Rounds; round++)
        {
            await using var service = await Program.Serve(cell);
            await KillUnderLoad(service, round, received);
        }

        await using var last = await Program.Serve(cell);
        var rows = LedgerRows.Read(cell.Data);

        Assert.Equal(received.Count, received.Select(r => r.Serial).Distinct().Count());
        Assert.All(received, reply => Served.Is(reply, rows[(int)reply.Serial - 1].Body));
        var unclean = rows.Where(r => r.Kind == "unclean-stop").ToList();
        Assert.Equal(Rounds, unclean.Count);
        Assert.All(unclean, u => Assert.Equal(u.Serial - 1, u.Body.GetProperty("last").GetInt64()));
        (await last.Ask("ledger", "verify")).Exits(0);
        Assert.Equal(0, (await last.Terminate()).ExitCode);
    }

    private static async Task KillUnderLoad(Service service, int round, ConcurrentBag<LineReply> received)
    {
        var before = received.Count;
        var killAt = before + Random.Shared.Next(1, 600);
        var reached = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        var clients = Enumerable.Range(0, Sockets).Select(async client =>
        {
            using var socket = await service.Connect();
            for (var i = 0; ; i++)
            {
                var diameter = Random.Shared.Next(7000, 9500) / 100m;
                var reply = await socket.TryAsk(
                    string.Create(CultureInfo.InvariantCulture, $"locate fixture=pinbed-1 diameter={diameter}mm tag={round}-{client}-{i}"));
                if (reply is null)
                {
                    return;
                }

                Assert.Equal($"{round}-{client}-{i}", reply["tag"]);
                Assert.Equal("ok", reply.Verdict);
                received.Add(reply);
                if (received.Count >= killAt)
                {
                    reached.TrySetResult();
                }
            }
        }).ToList();
        var ended = Task.WhenAll(clients);
        await (await Task.WhenAny(reached.Task, ended).Within("the load"));
        await service.Kill();
        await ended.Within("the end of the connections");
        Assert.True(received.Count > before, "nothing was answered before the kill");
    }
}
