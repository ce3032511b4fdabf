using System.Text.Json.Nodes;
using Grpc.Core;
using Stockseat.Service.Tests.Support;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Gauges;

/// <summary>
/// A push that the service refuses before it can decide on it: the sender learns that it was not accepted, and no answer uses the diameter from before it.
/// </summary>
public sealed class UndecidedPushTests
{
    [Fact]
    public async Task A_push_above_the_rate_leaves_no_older_diameter_in_its_place()
    {
        await using var bench = await Bench.Start(configure: GaugeStation(rate: 1));
        using var gauge = await Gauge(bench);
        using var controller = await bench.Line();
        Assert.StartsWith("ok ", await gauge.Ask("measured fixture=pinbed-1 diameter=92.40mm"), StringComparison.Ordinal);
        Assert.StartsWith("ok ", await controller.Ask("locate fixture=pinbed-1"), StringComparison.Ordinal);

        var refused = "";
        await Deadline.Until(
            async () => !(refused = await gauge.Ask("measured fixture=pinbed-1 diameter=92.50mm tag=5")).StartsWith("ok ", StringComparison.Ordinal),
            "the refusal of a second push in one second",
            () => Task.CompletedTask);

        Assert.StartsWith("refused tag=5 class=service reason=too-busy ", refused, StringComparison.Ordinal);
        Assert.Contains("this push was not taken, and no measurement of pinbed-1 is used until a push is taken", refused, StringComparison.Ordinal);
        var answer = await controller.Ask("locate fixture=pinbed-1");
        Assert.StartsWith("refused class=cell reason=measurement-missing ", answer, StringComparison.Ordinal);
        Assert.Contains("too-busy", answer, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_push_above_the_rate_over_gRPC_has_the_same_effect()
    {
        await using var bench = await Bench.Start(configure: s => s["Clients"]![0]!["Rate"] = 1);
        var gauges = new GaugeService.GaugeServiceClient(bench.Channel);
        RpcException? refused = null;
        await Deadline.Until(
            async () =>
            {
                try
                {
                    await gauges.RecordAsync(new() { Fixture = "pinbed-1", ReadingsMetres = { 0.0924 } });
                }
                catch (RpcException e)
                {
                    refused = e;
                }

                return refused is not null;
            },
            "the refusal of a second push in one second",
            () => Task.CompletedTask);

        Assert.Equal(StatusCode.ResourceExhausted, refused!.StatusCode);
        Assert.Equal("no", refused.GetRpcStatus()!.GetDetail<Google.Rpc.ErrorInfo>()!.Metadata["taken"]);
        await Missing(bench);
    }

    [Theory]
    [InlineData(0, "mm", "DIAMETER_MALFORMED")]
    [InlineData(0.0924, "inch", "UNIT_UNKNOWN")]
    public async Task An_unreadable_push_has_the_same_effect(double reading, string unit, string reason)
    {
        await using var bench = await Bench.Start();
        var gauges = new GaugeService.GaugeServiceClient(bench.Channel);
        await gauges.RecordAsync(new() { Fixture = "pinbed-1", ReadingsMetres = { 0.0924 } });

        var refused = await Assert.ThrowsAsync<RpcException>(async () =>
            await gauges.RecordAsync(new() { Fixture = "pinbed-1", ReadingsMetres = { reading }, Unit = unit }));

        var info = refused.GetRpcStatus()!.GetDetail<Google.Rpc.ErrorInfo>()!;
        Assert.Equal((reason, "no"), (info.Reason, info.Metadata["taken"]));
        await Missing(bench);
    }

    [Fact]
    public async Task A_stream_with_an_unreadable_reading_has_the_same_effect()
    {
        await using var bench = await Bench.Start();
        var gauges = new GaugeService.GaugeServiceClient(bench.Channel);
        await gauges.RecordAsync(new() { Fixture = "pinbed-1", ReadingsMetres = { 0.0924 } });
        using var stream = gauges.RecordReadings();
        await stream.RequestStream.WriteAsync(new() { Fixture = "pinbed-1", ReadingsMetres = { 0.0924 } });
        await stream.RequestStream.WriteAsync(new());
        await Assert.ThrowsAsync<RpcException>(async () => await stream);

        await Missing(bench);
    }

    [Fact]
    public async Task A_push_without_permission_leaves_no_doubt()
    {
        await using var bench = await Bench.Start(configure: GaugeStation(rate: 100, role: "locate"));
        using var other = await Gauge(bench);
        using var controller = await bench.Line();
        Assert.StartsWith("ok ", await controller.Ask("measured fixture=pinbed-1 diameter=92.40mm"), StringComparison.Ordinal);

        Assert.StartsWith("refused ", await other.Ask("measured fixture=pinbed-1 diameter=92.4"), StringComparison.Ordinal);
        Assert.StartsWith("ok ", await controller.Ask("locate fixture=pinbed-1"), StringComparison.Ordinal);
    }

    private static Action<JsonObject> GaugeStation(int rate, string role = "measure") => settings => settings["Clients"]!.AsArray().Insert(
        0, new JsonObject { ["Name"] = "gauge", ["Cell"] = "demo", ["From"] = new JsonArray("127.0.0.9"), ["Roles"] = new JsonArray(role), ["Rate"] = rate });

    private static Task<LineClient> Gauge(Bench bench) => LineClient.Connect(bench.Service.Line, from: "127.0.0.9");

    private static async Task Missing(Bench bench)
    {
        using var controller = await LineClient.Connect(bench.Service.Line);
        var answer = "";
        await Deadline.Until(
            async () => !(answer = await controller.Ask("locate fixture=pinbed-1")).Contains("reason=too-busy", StringComparison.Ordinal),
            "an answer within the client's rate");

        Assert.StartsWith("refused class=cell reason=measurement-missing ", answer, StringComparison.Ordinal);
    }
}
