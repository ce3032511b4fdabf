using Grpc.Core;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Grpc;

public sealed class GaugeTests : GrpcCase
{
    [Fact]
    public async Task A_measurement_is_the_mean_of_its_readings_and_is_used()
    {
        var measured = await Gauge.RecordAsync(
            new() { Fixture = "pinbed-1", ReadingsMetres = { 0.0924, 0.09245, 0.09241 }, Gauge = "bench-2", Lot = "A1077", Unit = "mm" });
        var answer = await Lookup.LocateAsync(new() { Fixture = "pinbed-1", Lot = "A1077" });

        Assert.Equal(0.09242, measured.DiameterMetres, 1e-12);
        Assert.Equal((measured.Serial, measured.DiameterMetres), (answer.Measurement, answer.DiameterMetres));
        Assert.True(answer.HasAgeSeconds);
    }

    [Fact]
    public async Task Readings_that_spread_too_far_are_refused_with_the_limit()
    {
        var info = await Refused(Gauge.RecordAsync(new() { Fixture = "pinbed-1", ReadingsMetres = { 0.0924, 0.0926 }, Gauge = "bench-2" }),
            StatusCode.FailedPrecondition, "READINGS_DISAGREE");

        Assert.Equal(("0.000200", "0.000100"), (info.Metadata["spread_metres"], info.Metadata["limit_metres"]));
    }

    [Fact]
    public async Task Emptied_voids_the_measurement()
    {
        await Gauge.RecordAsync(new() { Fixture = "pinbed-1", ReadingsMetres = { 0.0924 } });
        await Gauge.EmptiedAsync(new() { Fixture = "pinbed-1" });

        await Refused(Lookup.LocateAsync(new() { Fixture = "pinbed-1" }), StatusCode.FailedPrecondition, "MEASUREMENT_MISSING");
    }

    [Fact]
    public async Task A_measurement_of_another_lot_is_refused()
    {
        await Gauge.RecordAsync(new() { Fixture = "pinbed-1", ReadingsMetres = { 0.0924 }, Lot = "A1077" });

        var info = await Refused(Lookup.LocateAsync(new() { Fixture = "pinbed-1", Lot = "B2" }), StatusCode.FailedPrecondition, "MEASUREMENT_OUTSIDE_LOT");
        Assert.Equal(("A1077", "B2"), (info.Metadata["lot"], info.Metadata["asked"]));
    }
}
