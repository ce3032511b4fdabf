using System.Text.Json.Nodes;
using Stockseat.Service.Tests.Support;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Gauges;

public class ListeningPortTests
{
    [Fact]
    public async Task Two_readings_that_agree_make_a_measurement_and_a_locate_uses_it()
    {
        await using var bench = await GaugeClient.Serve(GaugeClient.Port(("Lot", "C3")));
        using var line = await bench.Line();
        using var gauge = await GaugeClient.Connect(bench.Service.ReadingPorts["bench-gauge"]);
        await gauge.Send("92,38\r\n92,42\r\n");
        var state = await GaugeClient.Until(line, "measurement=");

        var reply = await line.Ask("locate fixture=pinbed-1 lot=C3");
        Assert.Equal(("0.092400", BedPick.By), (LineClient.Value(reply, "diameter"), LineClient.Value(reply, "by")));
        Assert.Equal(LineClient.Value(state, "measurement"), LineClient.Value(reply, "measurement"));
        var body = await Body(bench, "measurement");
        Assert.Equal(("bench-gauge", "bench-2", "C3", "mm"), ((string?)body["client"], (string?)body["gauge"], (string?)body["lot"], (string?)body["unit"]));
        Assert.Equal([0.09238, 0.09242], body["readings"]!.AsArray().Select(r => (double)r!));
    }

    [Fact]
    public async Task Readings_that_disagree_void_the_previous_measurement()
    {
        await using var bench = await GaugeClient.Serve(GaugeClient.Port());
        using var line = await bench.Line();
        using var gauge = await GaugeClient.Connect(bench.Service.ReadingPorts["bench-gauge"]);
        await line.Ask("measured fixture=pinbed-1 diameter=92.40mm");
        Assert.Contains(" measurement=", await line.Ask("status fixture=pinbed-1"), StringComparison.Ordinal);
        await gauge.Send("92,40\r95,10\r");
        await Until(bench, p => p.Counts["refused"] == 1);

        Assert.Contains("reason=measurement-missing", await line.Ask("locate fixture=pinbed-1"), StringComparison.Ordinal);
        Assert.Equal("readings-disagree", (string?)(await Body(bench, "refusal", first: true))["reason"]);
    }

    [Fact]
    public async Task The_newest_connection_with_a_line_wins_and_the_previous_one_is_closed()
    {
        await using var bench = await GaugeClient.Serve(GaugeClient.Port());
        using var line = await bench.Line();
        using var old = await GaugeClient.Connect(bench.Service.ReadingPorts["bench-gauge"]);
        await old.Send("1");
        await GaugeClient.Until(line, "port=bench-gauge:connected");
        using var gauge = await GaugeClient.Connect(bench.Service.ReadingPorts["bench-gauge"]);
        await gauge.Send("92,40\n92,40\n");
        await old.Closed();
        await GaugeClient.Until(line, "measurement=");

        var port = await Until(bench, p => p.Counts.ContainsKey("cut-off"));
        Assert.Equal((1, ReadingPortState.Connected), (port.Counts["replaced"], port.State));
    }

    [Fact]
    public async Task A_connection_that_is_silent_or_uses_another_protocol_does_not_replace_the_gauge()
    {
        await using var bench = await GaugeClient.Serve(GaugeClient.Port());
        using var line = await bench.Line();
        using var gauge = await GaugeClient.Connect(bench.Service.ReadingPorts["bench-gauge"]);
        await gauge.Send("92,40\n");
        await Until(bench, p => p.Counts["readings"] == 1);
        using var silent = await GaugeClient.Connect(bench.Service.ReadingPorts["bench-gauge"]);
        using (var page = await GaugeClient.Connect(bench.Service.ReadingPorts["bench-gauge"]))
        {
            await silent.Closed(); // One connection is kept beside the gauge, the newest.
            await page.Send("POST /");
            await page.Closed();
        }

        await gauge.Send("92,42\n");
        Assert.Equal("0.092410", LineClient.Value(await GaugeClient.Until(line, "measurement="), "diameter"));
        var port = await Until(bench, p => p.Counts.ContainsKey("foreign"));
        Assert.Equal((1, 1, ReadingPortState.Connected), (port.Counts["replaced"], port.Counts["foreign"], port.State));
    }

    [Fact]
    public async Task When_the_gauge_disconnects_the_connection_beside_it_becomes_the_gauge()
    {
        await using var bench = await GaugeClient.Serve(GaugeClient.Port());
        using var line = await bench.Line();
        using var beside = await GaugeClient.Connect(bench.Service.ReadingPorts["bench-gauge"]);
        await GaugeClient.Until(line, "port=bench-gauge:connected");
        using (await GaugeClient.Connect(bench.Service.ReadingPorts["bench-gauge"]))
        {
            await beside.Send("92,40\n92,42\n");
            await GaugeClient.Until(line, "measurement=");
        }

        Assert.EndsWith(" ports=bench-gauge:connected", await line.Ask("status"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_gauge_that_disconnects_leaves_the_port_listening()
    {
        await using var bench = await GaugeClient.Serve(GaugeClient.Port());
        using var line = await bench.Line();
        Assert.EndsWith(" ports=bench-gauge:listening", await line.Ask("status"), StringComparison.Ordinal);
        using (await GaugeClient.Connect(bench.Service.ReadingPorts["bench-gauge"]))
        {
            await GaugeClient.Until(line, "port=bench-gauge:connected");
        }

        await GaugeClient.Until(line, "port=bench-gauge:listening");
    }

    [Fact]
    public async Task A_stranger_is_disconnected_at_once()
    {
        await using var bench = await GaugeClient.Serve(GaugeClient.Port(("From", new JsonArray("127.0.0.9"))));
        using var stranger = await GaugeClient.Connect(bench.Service.ReadingPorts["bench-gauge"]);
        await stranger.Closed();

        var port = await Until(bench, p => p.Counts.ContainsKey("stranger"));
        Assert.Equal((1, ReadingPortState.Listening, 0), (port.Counts["stranger"], port.State, port.Counts["lines"]));
    }

    [Fact]
    public async Task While_a_gauge_floods_other_clients_are_answered()
    {
        await using var bench = await GaugeClient.Serve(GaugeClient.Port());
        using var line = await bench.Line();
        using var gauge = await GaugeClient.Connect(bench.Service.ReadingPorts["bench-gauge"]);
        using var enough = new CancellationTokenSource();
        var flood = Task.Run(
            async () =>
            {
                var lines = string.Concat(Enumerable.Repeat("x92,40\r\n", 1000));
                while (!enough.IsCancellationRequested)
                {
                    await gauge.Send(lines);
                }
            },
            CancellationToken.None);
        await Until(bench, p => p.Counts.GetValueOrDefault("too-fast") > 10_000);
        for (var i = 0; i < 100; i++)
        {
            Assert.StartsWith("ok ", await line.Ask("locate fixture=pinbed-1 diameter=92.40mm"), StringComparison.Ordinal);
        }

        await enough.CancelAsync();
        await flood.Within("the end of the flood");
        Assert.Single(bench.Log.All, e => e.Text.Contains("did not use", StringComparison.Ordinal)
            && e.Text.EndsWith(" 0 similar ones before it were not logged", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_stop_is_clean_while_a_gauge_is_connected_and_the_service_starts_again()
    {
        await using var bench = await GaugeClient.Serve(GaugeClient.Port(), GaugeClient.Port(("Name", "other"), ("Listen", null), ("Connect", "127.0.0.1:1")));
        using var line = await bench.Line();
        using var gauge = await GaugeClient.Connect(bench.Service.ReadingPorts["bench-gauge"]);
        await gauge.Send("92,40\n");
        await GaugeClient.Until(line, "port=bench-gauge:connected");

        await bench.Restart();
        await gauge.Closed();
        Assert.Equal(["bench-gauge"], bench.Service.ReadingPorts.Keys);
    }

    private static async Task<JsonNode> Body(Bench bench, string kind, bool first = false)
    {
        var entries = (await new LedgerService.LedgerServiceClient(bench.Channel).ListEntriesAsync(new() { Kind = kind })).Entries;
        return JsonNode.Parse((first ? entries[0] : Assert.Single(entries)).Body)!;
    }

    private static async Task<ReadingPort> Until(Bench bench, Func<ReadingPort, bool> holds)
    {
        ReadingPort? port = null;
        await Deadline.Until(
            async () => holds(port = Assert.Single((await new FixtureService.FixtureServiceClient(bench.Channel).ListFixturesAsync(new())).Ports)),
            "the port's state",
            more: () => $"{port}");
        return port!;
    }
}
