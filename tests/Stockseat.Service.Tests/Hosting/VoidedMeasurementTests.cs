using Grpc.Core;
using Stockseat.Service.Tests.Support;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Hosting;

/// <summary>An old diameter is never used in place of one that was just refused, not even after a restart.</summary>
public class VoidedMeasurementTests
{
    [Fact]
    public async Task A_push_outside_the_envelope_voids_the_measurement_before_it_across_a_restart()
    {
        await using var bench = await Bench.Start();
        await Record(bench, 0.08, "");
        await Assert.ThrowsAsync<RpcException>(() => Record(bench, 0.04, ""));

        await Missing(bench);
        await bench.Restart();
        await Missing(bench);

        await Record(bench, 0.09, "");
        await bench.Restart();
        Assert.Equal(0.09, (await Locate(bench)).DiameterMetres);
    }

    [Fact]
    public async Task A_push_with_the_request_id_of_another_push_is_refused_and_voids_the_measurement()
    {
        await using var bench = await Bench.Start();
        var first = await Record(bench, 0.08, "1");
        Assert.Equal(first.Serial, (await Record(bench, 0.08, "1")).Serial);

        await Assert.ThrowsAsync<RpcException>(() => Record(bench, 0.0924, "1"));

        await Missing(bench);
        await bench.Restart();
        await Missing(bench);
    }

    private static async Task Missing(Bench bench)
    {
        var refused = await Assert.ThrowsAsync<RpcException>(() => Locate(bench));
        Assert.Equal("MEASUREMENT_MISSING", refused.GetRpcStatus()!.GetDetail<Google.Rpc.ErrorInfo>()!.Reason);
    }

    private static async Task<LocateResponse> Locate(Bench bench) =>
        await new LookupService.LookupServiceClient(bench.Channel).LocateAsync(new() { Fixture = "pinbed-1" });

    private static async Task<RecordResponse> Record(Bench bench, double metres, string request) =>
        await new GaugeService.GaugeServiceClient(bench.Channel).RecordAsync(new() { Fixture = "pinbed-1", ReadingsMetres = { metres }, RequestId = request });
}
