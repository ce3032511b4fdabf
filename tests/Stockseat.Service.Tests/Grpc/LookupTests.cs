using Grpc.Core;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Grpc;

public sealed class LookupTests : GrpcCase
{
    public static TheoryData<double> BadDiameters => [double.NaN, double.PositiveInfinity, double.NegativeInfinity, -0.05, 0, -0.0, 10.000001, 1e300];

    [Fact]
    public async Task An_answer_has_the_worked_example_s_numbers_unrounded()
    {
        var answer = await Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924, Tag = "17" });

        Assert.Equal(("pinbed-1", 3, Purpose.Pick, "17", true), (answer.Fixture, answer.Revision, answer.Purpose, answer.Tag, answer.First));
        Assert.False(answer.HasMeasurement || answer.HasAgeSeconds);
        Assert.Equal(0.008213, answer.ShiftBaseMetres.Y, 0.0000005);
        Assert.Equal(-0.008213, answer.ShiftOriginMetres.Y, 0.0000005);
        Assert.Equal(-0.196787, answer.PositionMetres.Y, 0.0000005);
        Assert.Equal((0.4123, 0.118), (answer.PositionMetres.X, answer.PositionMetres.Z));
        Assert.Equal(new Orientation { X = 1 }, answer.Orientation);
        Assert.Equal(64, answer.Digest.Length);
    }

    [Fact]
    public async Task Numbers_read_back_are_compared()
    {
        var answer = await Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924 });

        Assert.Equal(answer.Serial, (await Lookup.ConfirmAsync(new() { Serial = answer.Serial, ReadBack = { ["by"] = "0.008213" } })).Confirms);
        var info = await Refused(Lookup.ConfirmAsync(new() { Serial = answer.Serial, ReadBack = { ["by"] = "0.008123" } }), StatusCode.FailedPrecondition,
            "READBACK_DIFFERS");
        Assert.Equal(("by", "0.008213", "0.008123"), (info.Metadata["name"], info.Metadata["served"], info.Metadata["read"]));
        await Refused(Lookup.ConfirmAsync(new() { Serial = 1 }), StatusCode.NotFound, "SERIAL_UNKNOWN");
        await Refused(Lookup.ConfirmAsync(new() { Serial = long.MinValue }), StatusCode.NotFound, "SERIAL_UNKNOWN");
    }

    [Theory]
    [MemberData(nameof(BadDiameters))]
    public async Task A_value_that_is_not_a_diameter_is_refused_and_the_next_ask_is_answered(double metres)
    {
        await Refused(Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = metres }), StatusCode.InvalidArgument, "DIAMETER_MALFORMED");
        await Refused(Gauge.RecordAsync(new() { Fixture = "pinbed-1", ReadingsMetres = { 0.0924, metres } }), StatusCode.InvalidArgument, "DIAMETER_MALFORMED");

        Assert.NotEqual(0, (await Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924 })).Serial);
    }

    [Fact]
    public async Task A_diameter_outside_the_stated_range_is_refused_with_the_limit()
    {
        var info = await Refused(Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.059 }), StatusCode.OutOfRange, "DIAMETER_BELOW_ENVELOPE");

        Assert.Equal(("0.059000", "stated-range", "0.060000"), (info.Metadata["diameter_metres"], info.Metadata["constraint"], info.Metadata["limit"]));
    }
}
