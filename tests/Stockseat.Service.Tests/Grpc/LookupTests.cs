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

        // √(52.5² − 30²) − √(46² − 30²) mm along the seat axis (−0.576, 0.768, 0.28), down the tool's y.
        var along = (Math.Sqrt(1856.25) - Math.Sqrt(1216)) / 1000;
        Near(-0.576 * along, 0.768 * along, 0.28 * along, answer.ShiftBaseMetres);
        Near(0, -along, 0, answer.ShiftOriginMetres);
        Near(0.4123 - 0.576 * along, -0.205 + 0.768 * along, 0.118 + 0.28 * along, answer.PositionMetres);
        Assert.Equal(
            (0.134164079, -0.939148551, -0.313049517, 0.044721360),
            (Nine(answer.Orientation.W), Nine(answer.Orientation.X), Nine(answer.Orientation.Y), Nine(answer.Orientation.Z)));
        Assert.Equal(64, answer.Digest.Length);

        static double Nine(double value) => Math.Round(value, 9);
    }

    [Fact]
    public async Task Numbers_read_back_are_compared()
    {
        var answer = await Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924 });

        var confirmed = await Lookup.ConfirmAsync(
            new() { Serial = answer.Serial, ReadBack = { ["bx"] = BedPick.Bx, ["by"] = BedPick.By, ["bz"] = BedPick.Bz } });
        Assert.Equal((answer.Serial, true), (confirmed.Confirms, confirmed.HasNumbers));
        Assert.False((await Lookup.ConfirmAsync(new() { Serial = answer.Serial })).HasNumbers);
        await Refused(
            Lookup.ConfirmAsync(new() { Serial = answer.Serial, ReadBack = { ["by"] = BedPick.By } }), StatusCode.InvalidArgument, "READBACK_MISSING");
        var info = await Refused(Lookup.ConfirmAsync(new() { Serial = answer.Serial, ReadBack = { ["by"] = "0.006038" } }), StatusCode.FailedPrecondition,
            "READBACK_DIFFERS");
        Assert.Equal(("by", BedPick.By, "0.006038"), (info.Metadata["name"], info.Metadata["served"], info.Metadata["read"]));
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

    private static void Near(double x, double y, double z, Vector found) =>
        Assert.All(new[] { (x, found.X), (y, found.Y), (z, found.Z) }, pair => Assert.Equal(pair.Item1, pair.Item2, 1e-12));
}
