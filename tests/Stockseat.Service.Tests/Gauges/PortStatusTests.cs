using System.Text.Json.Nodes;
using Microsoft.Extensions.Time.Testing;
using Stockseat.Service.Tests.Support;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Gauges;

public class PortStatusTests
{
    [Fact]
    public async Task ListFixtures_shows_everything_about_a_port()
    {
        var time = new FakeTimeProvider(new(2026, 11, 25, 8, 0, 0, TimeSpan.Zero));
        await using var bench = await GaugeClient.Serve(time, GaugeClient.Port());
        using var line = await bench.Line();
        using var gauge = await GaugeClient.Connect(bench.Service.ReadingPorts["bench-gauge"]);
        await gauge.Send("OL=1\n92,40\n92,40\n");
        await GaugeClient.Until(line, "measurement=");

        var port = Assert.Single((await new FixtureService.FixtureServiceClient(bench.Channel).ListFixturesAsync(new())).Ports);
        Assert.Equal(("bench-gauge", "bench-2", "pinbed-1"), (port.Name, port.Gauge, port.Fixture));
        Assert.Equal((bench.Service.ReadingPorts["bench-gauge"].ToString(), ReadingPortState.Connected, "2026-11-25T08:00:00.000000Z"),
            (port.Endpoint, port.State, port.Since));
        Assert.Equal(
            ["lines 3", "measurements 1", "no-match 1", "readings 2", "refused 0"],
            port.Counts.OrderBy(c => c.Key, StringComparer.Ordinal).Select(c => $"{c.Key} {c.Value}"));
        Assert.Equal("no-match: OL?1", port.LastCause);
    }

    [Fact]
    public async Task Status_shows_only_a_fixture_s_own_ports()
    {
        await using var bench = await GaugeClient.Serve(GaugeClient.Port(), GaugeClient.Port(("Name", "second"), ("Fixture", "veerack-2")));
        using var line = await bench.Line();

        Assert.EndsWith(" ports=bench-gauge:listening,second:listening", await line.Ask("status"), StringComparison.Ordinal);
        Assert.Equal("bench-gauge:listening", LineClient.Value(await line.Ask("status fixture=pinbed-1"), "port"));
        Assert.Equal("second:listening", LineClient.Value(await line.Ask("status fixture=veerack-2"), "port"));
        using var gauge = await GaugeClient.Connect(bench.Service.ReadingPorts["second"]);
        await GaugeClient.Until(line, " ports=bench-gauge:listening,second:connected", "status");
    }

    [Fact]
    public async Task A_client_sees_only_the_ports_of_its_fixtures()
    {
        await using var bench = await Bench.Start(configure: settings =>
        {
            settings["ReadingPorts"] = new JsonArray(GaugeClient.Port(), GaugeClient.Port(("Name", "second"), ("Fixture", "veerack-2")));
            settings["Clients"]![0]!["Fixtures"] = new JsonArray("veerack-2");
        });
        using var line = await bench.Line();

        Assert.EndsWith(" ports=second:listening", await line.Ask("status"), StringComparison.Ordinal);
        Assert.Equal(["second"], (await new FixtureService.FixtureServiceClient(bench.Channel).ListFixturesAsync(new())).Ports.Select(p => p.Name));
    }

    [Fact]
    public async Task Without_ports_status_does_not_mention_them()
    {
        await using var bench = await Bench.Start();
        using var line = await bench.Line();

        Assert.DoesNotContain("port", await line.Ask("status"), StringComparison.Ordinal);
        Assert.DoesNotContain("port", await line.Ask("status fixture=pinbed-1"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_port_that_can_not_be_opened_is_named()
    {
        await using var bench = await GaugeClient.Serve(GaugeClient.Port());
        var taken = bench.Service.ReadingPorts["bench-gauge"].ToString();

        var failure = await Assert.ThrowsAsync<IOException>(() => GaugeClient.Serve(GaugeClient.Port(("Listen", taken))));
        Assert.Contains($"reading port bench-gauge ({taken}) can't be used", failure.Message, StringComparison.Ordinal);
    }
}
