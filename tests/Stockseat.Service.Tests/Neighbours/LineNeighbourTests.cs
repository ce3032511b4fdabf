using System.Net.Sockets;
using System.Text;
using Stockseat.Service.Tests.Support;

namespace Stockseat.Service.Tests.Neighbours;

/// <summary>Clients that are slow, greedy or endless on the line port, beside a good client.</summary>
public class LineNeighbourTests
{
    private const string TooBusy = "refused class=service reason=too-busy text=\"client neighbour has ";

    [Fact]
    public async Task Fifty_clients_that_send_one_byte_and_wait()
    {
        await using var hood = await Neighbourhood.Start();
        var bad = new List<LineClient>();
        for (var i = 0; i < 50; i++)
        {
            bad.Add(await hood.Bad());
            await bad[^1].Send("l");
        }

        await hood.GoodIsServed();
        Assert.All(bad, b => b.Dispose());
        Assert.Equal(50, bad.Count);
    }

    [Fact]
    public async Task Five_clients_that_pipeline_and_never_read()
    {
        await using var hood = await Neighbourhood.Start();
        var lines = Encoding.ASCII.GetBytes(string.Concat(Enumerable.Repeat("help\n", 1000)));
        var sent = new long[5];

        await hood.GoodIsServedWhile([.. Enumerable.Range(0, sent.Length).Select(i => (Func<CancellationToken, Task>)(async stop =>
        {
            using var socket = Outcome.Bound(receiveBuffer: 4096);
            await socket.ConnectAsync(hood.Bench.Service.Line, CancellationToken.None);
            await Flood(socket, lines, n => sent[i] += n, stop);
        }))]);

        Assert.All(sent, bytes => Assert.True(bytes >= 2 * lines.Length, $"the client sent only {bytes} bytes: that is not a flood"));
    }

    [Fact]
    public async Task Ten_clients_whose_line_never_ends()
    {
        await using var hood = await Neighbourhood.Start();
        var endless = Encoding.ASCII.GetBytes(new string('a', 64 * 1024));
        var connections = 0;

        await hood.GoodIsServedWhile([.. Enumerable.Range(0, 10).Select(_ => (Func<CancellationToken, Task>)(async stop =>
        {
            // At least once each, and then again as often as the client is disconnected.
            do
            {
                using var socket = Outcome.Bound();
                await socket.ConnectAsync(hood.Bench.Service.Line, CancellationToken.None);
                Interlocked.Increment(ref connections);
                await Flood(socket, endless, _ => { }, CancellationToken.None);
            }
            while (!stop.IsCancellationRequested);
        }))]);

        // Each got its one refusal and was disconnected: none could send forever.
        Assert.True(connections >= 10);
        Assert.Equal(connections, await hood.TurnedAway());
    }

    [Fact]
    public async Task Five_thousand_clients_that_connect_in_bursts()
    {
        await using var hood = await Neighbourhood.Start();
        var (inside, refused, reset) = (new List<LineClient>(), 0, 0);
        for (var burst = 0; burst < 10; burst++)
        {
            var connected = await Task.WhenAll(Enumerable.Range(0, 500).Select(async _ =>
            {
                var line = await hood.Bad();
                try
                {
                    await line.Send("hello\n");
                    return (Line: line, Reply: await line.Read());
                }
                catch (Exception e) when (e is IOException or SocketException)
                {
                    return (Line: line, Reply: null);
                }
            }));
            foreach (var (line, reply) in connected)
            {
                if (reply == "ok stockseat line 2")
                {
                    inside.Add(line);
                    continue;
                }

                Assert.True(reply is null || reply.StartsWith(TooBusy, StringComparison.Ordinal), reply);
                _ = reply is null ? reset++ : refused++;
                using (line)
                {
                    Assert.Null(reply is null ? null : await EndOf(line));
                }
            }
        }

        await hood.GoodIsServed();
        Assert.Equal(Service.Clients.Client.UsualConnections, inside.Count);
        Assert.Equal(5000 - inside.Count, await hood.TurnedAway());
        Assert.True(refused > reset, $"{refused} got a refusal, {reset} were reset");

        inside.ForEach(line => line.Dispose());
        await hood.BadIsLetInAgain();
    }

    [Fact]
    public async Task A_client_with_few_permitted_connections_leaves_room_for_the_good_one()
    {
        await using var hood = await Neighbourhood.Start(
            bad => (bad["Connections"], bad["Rate"]) = (20, 50),
            settings => settings["Limits"] = new System.Text.Json.Nodes.JsonObject { ["Connections"] = 24 });
        var bad = new List<LineClient>();
        for (var i = 0; i < 20; i++)
        {
            bad.Add(await hood.Bad());
            await bad[^1].Ask("hello");
        }

        using (var extra = await hood.Bad())
        {
            Assert.StartsWith(TooBusy, await extra.Read(), StringComparison.Ordinal);
        }

        // And it asks as fast as it can: above its rate it is refused, and no other client is.
        var (served, refused) = (0, 0);
        await hood.GoodIsServedWhile(async stop =>
        {
            do
            {
                var reply = await bad[0].Ask("locate fixture=pinbed-1 diameter=90mm");
                _ = reply.StartsWith("ok ", StringComparison.Ordinal) ? served++ : refused++;
                Assert.True(reply.StartsWith("ok ", StringComparison.Ordinal) || reply.Contains(" reason=too-busy ", StringComparison.Ordinal), reply);
            }
            while (!stop.IsCancellationRequested || refused == 0);
        });

        Assert.True(refused > 0 && served > 0, $"{served} served, {refused} refused");
        bad.ForEach(line => line.Dispose());
        await hood.BadIsLetInAgain();
    }

    /// <summary>Sends again and again until it is stopped, or disconnected.</summary>
    private static async Task Flood(Socket socket, byte[] bytes, Action<int> sent, CancellationToken stop)
    {
        try
        {
            while (true)
            {
                sent(await socket.SendAsync(bytes, stop));
            }
        }
        catch (Exception e) when (e is OperationCanceledException or SocketException)
        {
        }
    }

    private static async Task<string?> EndOf(LineClient line)
    {
        try
        {
            return await line.Read();
        }
        catch (IOException)
        {
            return null;
        }
    }
}
