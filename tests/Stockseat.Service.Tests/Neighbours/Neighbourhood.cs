using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text.Json.Nodes;
using Grpc.Core;
using Stockseat.Service.Tests.Support;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Neighbours;

/// <summary>
/// One service and two clients of its configuration: a good one, which asks what a controller asks, and a bad one from another address.
/// At the end the memory has not grown beyond a bound, and no error was logged.
/// </summary>
internal sealed class Neighbourhood : IAsyncDisposable
{
    /// <summary>The address of the bad clients.</summary>
    public const string BadAddress = "127.0.0.66";

    /// <summary>How much the managed memory may grow while bad clients are connected and after that.</summary>
    public const long MostBytes = 64L << 20;

    /// <summary>For anything that never comes: the test fails and does not hang.</summary>

    private const int Asks = 200;

    private readonly long _before = GC.GetTotalMemory(forceFullCollection: true);
    private long _serial;

    private Neighbourhood(Bench bench) => Bench = bench;

    public Bench Bench { get; }

    /// <summary>Starts the service; the bad client's settings can be changed.</summary>
    public static async Task<Neighbourhood> Start(Action<JsonObject>? bad = null, Action<JsonObject>? configure = null) =>
        new(await Bench.Start(configure: settings =>
    {
        var entry = new JsonObject { ["Name"] = "neighbour", ["From"] = new JsonArray(BadAddress), ["Roles"] = Bench.AllRoles() };
        bad?.Invoke(entry);
        settings["Clients"]!.AsArray().Insert(0, entry);
        configure?.Invoke(settings);
    }));

    /// <summary>A connection of the bad client.</summary>
    public Task<LineClient> Bad() => LineClient.Connect(Bench.Service.Line, BadAddress);

    /// <summary>A channel of the bad client.</summary>
    public LimitedChannel BadChannel(int? largest = null) => LimitedChannel.For(Bench.Service.Grpc, new()
    {
        MaxSendMessageSize = largest,
        DisposeHttpClient = true,
        HttpHandler = new SocketsHttpHandler
        {
            ConnectCallback = async (context, token) =>
            {
                var socket = new Socket(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp);
                socket.Bind(new IPEndPoint(IPAddress.Parse(BadAddress), 0));
                await socket.ConnectAsync(context.DnsEndPoint.Host, context.DnsEndPoint.Port, token);
                return new NetworkStream(socket, ownsSocket: true);
            },
        },
    });

    /// <summary>While bad clients do their worst: the good client asks on a connection of its own, and every answer is right.</summary>
    public async Task GoodIsServed()
    {
        using var good = await Bench.Line();
        await good.Ask("measured fixture=pinbed-1 diameter=92.4mm lot=A1077 tag=m");
        for (var i = 0; i < Asks; i++)
        {
            var stated = i % 4 != 3;
            var millimetres = stated ? 80 + (i % 150 * 0.1m) : 92.4m;
            var answer = await good.Ask(string.Create(
                CultureInfo.InvariantCulture, $"locate fixture=pinbed-1 {(stated ? $"diameter={millimetres:0.0}mm" : "lot=A1077")} tag=g{i}"));
            IsRight(answer, $"g{i}", millimetres);
        }

        Assert.InRange(Grown(), long.MinValue, MostBytes);
    }

    /// <summary>The bad clients are active while the good one asks; then they are stopped, and the test waits for their end.</summary>
    public async Task GoodIsServedWhile(params Func<CancellationToken, Task>[] bad)
    {
        using var stop = new CancellationTokenSource();
        var atWork = bad.Select(b => Task.Run(() => b(stop.Token))).ToList();
        try
        {
            await GoodIsServed();
        }
        finally
        {
            await stop.CancelAsync();
            await Task.WhenAll(atWork).Within("the end of the bad clients, which were told to stop");
        }
    }

    /// <summary>How many connections were turned away since the start, as the service reports it.</summary>
    public async Task<long> TurnedAway()
    {
        using var good = await Bench.Line();
        return long.Parse(LineClient.Value(await good.Ask("status"), "turnedaway")!, CultureInfo.InvariantCulture);
    }

    /// <summary>Returns when the bad client is let in again. Each attempt is a whole connection, so it is not just a wait for time to pass.</summary>
    public async Task BadIsLetInAgain()
    {
        IReadOnlyList<string>? outcome = null;
        await Deadline.Until(
            async () => (outcome = await Outcome.Of(this, "hello\n"u8.ToArray())) is ["ok stockseat line 2"],
            "the client's connections ended; that a new one is let in",
            more: () => outcome is null ? "reset" : string.Join('|', outcome));
    }

    /// <summary>
    /// Returns when a call of the bad client is answered again. Its own rate may refuse it until the second is over in which it asked too much.
    /// </summary>
    public async Task BadIsAnsweredAgain()
    {
        using var channel = BadChannel();
        var lookup = new LookupService.LookupServiceClient(channel);
        await Deadline.Until(
            async () =>
            {
                try
                {
                    Assert.Equal(0.09, (await lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.09 })).DiameterMetres);
                    return true;
                }
                catch (RpcException e) when (e.StatusCode == StatusCode.ResourceExhausted)
                {
                    return false;
                }
            },
            "an answer to the bad client",
            () => Task.Delay(50));
    }

    public async ValueTask DisposeAsync()
    {
        await Bench.DisposeAsync();
        Assert.InRange(Grown(), long.MinValue, MostBytes);
    }

    /// <summary>
    /// The closed form: the stock's centre is above the line of two pins by the height of a triangle whose sides are the two sums of radii and the spacing.
    /// </summary>
    private void IsRight(string answer, string tag, decimal millimetres)
    {
        Assert.StartsWith($"ok tag={tag} serial=", answer, StringComparison.Ordinal);
        Assert.EndsWith(" end", answer, StringComparison.Ordinal);
        var shift = (Height((double)millimetres, room: 0.3) - Height(80, room: 0)) / 1000;

        // Along the seat axis of the tilted bed.
        Assert.Equal(-0.576 * shift, Number("bx"), 0.6e-6);
        Assert.Equal(0.768 * shift, Number("by"), 0.6e-6);
        Assert.Equal(0.28 * shift, Number("bz"), 0.6e-6);
        Assert.Equal(0.4123 - 0.576 * shift, Number("x"), 0.6e-6);
        Assert.Equal(-0.205 + 0.768 * shift, Number("y"), 0.6e-6);
        Assert.Equal(0.118 + 0.28 * shift, Number("z"), 0.6e-6);
        Assert.Equal((double)millimetres / 1000, Number("diameter"), 0.6e-6);
        Assert.True(Number("serial") > _serial, "a serial that existed before");
        _serial = (long)Number("serial");

        double Number(string key) => double.Parse(LineClient.Value(answer, key)!, CultureInfo.InvariantCulture);
        static double Height(double diameter, double room) => Math.Sqrt(Math.Pow((diameter / 2) + 6 + room, 2) - (30 * 30));
    }

    private long Grown() => GC.GetTotalMemory(forceFullCollection: true) - _before;
}
