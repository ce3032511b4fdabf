using Grpc.Core;
using Stockseat.Service.Tests.Support;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Grpc;

public sealed class LotTests : GrpcCase
{
    [Fact]
    public async Task A_described_lot_is_used_to_judge_measurements_also_after_a_restart()
    {
        await Refused(Push(0.0924, "D4"), StatusCode.NotFound, "LOT_UNKNOWN");
        var described = await Gauge.DescribeLotAsync(new() { Lot = "D4", NominalMetres = 0.09, Tolerance = "EN 10060", Tag = "7" });

        Assert.Equal((0.09, "EN 10060", 0.0887, 0.0913),
            (described.Limits.NominalMetres, described.Limits.Tolerance, Math.Round(described.Limits.LeastMetres, 9),
            Math.Round(described.Limits.GreatestMetres, 9)));
        Assert.Equal(0.00195, described.Limits.OutOfRoundMetres, 1e-12);
        await Bench.Restart();
        var info = await Refused(Push(0.0924, "D4"), StatusCode.FailedPrecondition, "MEASUREMENT_OUTSIDE_LOT");
        Assert.Equal(("0.088700", "0.091300"), (info.Metadata["least_metres"], info.Metadata["greatest_metres"]));
        await Push(0.0905, "D4");
        var answer = await Lookup.LocateAsync(new() { Fixture = "pinbed-1", Lot = "D4" });
        Assert.Equal(0.0905, answer.DiameterMetres);
        var entry = (await Ledger.GetEntryAsync(new() { Serial = described.Serial })).Entry;
        Assert.Equal(("lot-described", "", "7"), (entry.Kind, entry.Fixture, entry.Tag));
    }

    [Fact]
    public async Task A_retry_of_a_description_writes_nothing_twice_and_another_description_is_refused()
    {
        var request = new DescribeLotRequest { Lot = "D4", NominalMetres = 0.09, PlusMetres = 0, MinusMetres = 0.001, RequestId = "a" };
        var first = await Gauge.DescribeLotAsync(request);

        Assert.Equal(first, await Gauge.DescribeLotAsync(request));
        request.MinusMetres = 0.002;
        await Refused(Gauge.DescribeLotAsync(request), StatusCode.InvalidArgument, "VALUE_MALFORMED");
    }

    [Fact]
    public async Task All_lots_are_listed_with_their_origin()
    {
        var first = await Gauge.DescribeLotAsync(new() { Lot = "B1" });
        var second = await Gauge.DescribeLotAsync(new() { Lot = "B1", OutOfRoundMetres = 0.0001 });

        var lots = (await Gauge.ListLotsAsync(new())).Lots;

        Assert.Equal(["A1077", "B1", "B2", "C3"], lots.Select(l => l.Lot_));
        Assert.Equal((true, second.Serial, false), (second.Serial > first.Serial, lots[1].DescribedBy, lots[0].HasDescribedBy));
        Assert.Equal(("h11", 0.0925, false), (lots[0].Limits.Tolerance, lots[0].Limits.GreatestMetres, lots[0].Limits.HasOutOfRoundMetres));
        Assert.Equal((false, 0.0001), (lots[1].Limits.HasNominalMetres, lots[1].Limits.OutOfRoundMetres));
    }

    [Fact]
    public async Task A_lot_of_the_configuration_can_not_be_described_and_the_attempt_has_its_entry()
    {
        await Refused(Gauge.DescribeLotAsync(new() { Lot = "A1077", NominalMetres = 0.09, Tolerance = "h9" }), StatusCode.InvalidArgument, "VALUE_MALFORMED");

        var entry = Assert.Single((await Ledger.ListEntriesAsync(new() { After = -1 })).Entries);
        Assert.Contains("\"asked\":\"describe-lot\"", entry.Body, StringComparison.Ordinal);
        Assert.Contains("\"lot\":\"A1077\",\"lotTerms\":{\"nominal\":0.09,\"tolerance\":\"h9\"", entry.Body, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_description_without_content_gets_all_its_faults()
    {
        var e = await Assert.ThrowsAsync<RpcException>(async () => await Gauge.DescribeLotAsync(new() { Lot = "D4", Tolerance = "h11", PlusMetres = 0.001 }));
        Assert.Equal(
            "tolerance 'h11' can't be stated together with plus or minus; state one or the other; plus_metres needs a minus as well; state 0 when there is "
            + "none; tolerance 'h11' needs a nominal as well; correct the value", e.Status.Detail);

        await Refused(Gauge.DescribeLotAsync(new()), StatusCode.InvalidArgument, "KEY_MISSING");
        await Refused(Gauge.DescribeLotAsync(new() { Lot = "D 4" }), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        await Refused(Gauge.DescribeLotAsync(new() { Lot = "D4", NominalMetres = double.NaN, Tolerance = "h9" }), StatusCode.InvalidArgument,
            "VALUE_MALFORMED");
        await Refused(Gauge.DescribeLotAsync(new() { Lot = "D4", NominalMetres = 0.09, PlusMetres = -0.001, MinusMetres = 0 }), StatusCode.InvalidArgument,
            "VALUE_MALFORMED");
        await Refused(Gauge.DescribeLotAsync(new() { Lot = "D4", NominalMetres = 0.09, Tolerance = new string('h', 41) }), StatusCode.InvalidArgument,
            "VALUE_MALFORMED");
        await Refused(Gauge.DescribeLotAsync(new() { Lot = "D4", NominalMetres = 0.6, Tolerance = "h9" }), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        Assert.DoesNotContain((await Gauge.ListLotsAsync(new())).Lots, l => l.Lot_ == "D4");
    }

    [Fact]
    public async Task A_stated_diameter_has_to_fit_its_lot()
    {
        Assert.Equal(0.0924, (await Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924, Lot = "A1077" })).DiameterMetres);

        var info = await Refused(Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0462, Lot = "A1077" }), StatusCode.FailedPrecondition,
            "MEASUREMENT_OUTSIDE_LOT");
        Assert.Equal(("radius-for-diameter", "0.092400"), (info.Metadata["slip"], info.Metadata["slip_metres"]));
        await Refused(Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924, Lot = "C3" }), StatusCode.NotFound, "LOT_UNKNOWN");
        await Refused(Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924, Lot = "D4" }), StatusCode.NotFound, "LOT_UNKNOWN");
    }

    [Fact]
    public async Task The_spread_of_several_readings_is_given_and_of_a_single_one_it_is_not()
    {
        var one = await Gauge.RecordAsync(new() { Fixture = "pinbed-1", ReadingsMetres = { 0.0924 } });
        var three = await Gauge.RecordAsync(new() { Fixture = "pinbed-1", ReadingsMetres = { 0.0924, 0.09241, 0.09242 } });

        Assert.Equal((1, false), (one.Readings, one.HasSpreadMetres));
        Assert.Equal((3, 0.00002), (three.Readings, three.SpreadMetres));
    }

    private AsyncUnaryCall<RecordResponse> Push(double diameter, string lot) =>
        Gauge.RecordAsync(new() { Fixture = "pinbed-1", ReadingsMetres = { diameter }, Lot = lot });
}
