using System.Net;
using System.Net.Sockets;
using Stockseat.Service.Tests.Support;

namespace Stockseat.Service.Tests.Gauges;

/// <summary>The service calls a gauge over real sockets.</summary>
public class ConnectingPortTests
{
    [Fact]
    public async Task A_gauge_that_disconnects_and_comes_back_is_read_again()
    {
        var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        var at = (IPEndPoint)listener.LocalEndpoint;
        await using var bench = await GaugeClient.Serve(GaugeClient.Port(("Listen", null), ("Connect", $"localhost:{at.Port}")));
        using var line = await bench.Line();
        using (var gauge = await Accept(listener))
        {
            await gauge.Send("92,40\n");
            await GaugeClient.Until(line, "port=bench-gauge:connected");
            listener.Stop();
        }

        Assert.EndsWith(" ports=bench-gauge:connecting", await GaugeClient.Until(line, "connecting", "status"), StringComparison.Ordinal);
        listener = new TcpListener(at);
        listener.Start();
        using var back = await Accept(listener);
        await back.Send("92,42\n92,44\n");
        var state = await GaugeClient.Until(line, "measurement=");
        listener.Stop();

        // The reading from before the disconnection is not combined with one from after.
        Assert.Equal("0.092430", LineClient.Value(state, "diameter"));
        Assert.Single(bench.Log.All, e => e.Text.Contains("has no connection", StringComparison.Ordinal));
    }

    [Fact]
    public async Task The_service_serves_and_stops_while_the_gauge_is_not_connected()
    {
        await using var bench = await GaugeClient.Serve(GaugeClient.Port(("Listen", null), ("Connect", "127.0.0.1:1")));
        using var line = await bench.Line();
        await GaugeClient.Until(line, "port=bench-gauge:connecting");

        Assert.StartsWith("ok ", await line.Ask("locate fixture=pinbed-1 diameter=92.40mm"), StringComparison.Ordinal);
        Assert.Equal(0, await bench.Stop());
    }

    private static async Task<GaugeClient> Accept(TcpListener listener) => new(await listener.AcceptTcpClientAsync().Within("a call to the gauge"));
}
