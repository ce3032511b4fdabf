using Grpc.Core;
using Grpc.Health.V1;
using Grpc.Reflection.V1Alpha;
using Stockseat.Service.Tests.Support;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Grpc;

public sealed class ServiceTests : GrpcCase
{
    [Fact]
    public async Task A_malformed_request_is_refused_with_its_reason()
    {
        var longest = new string('a', 41);
        await Refused(Lookup.LocateAsync(new()), StatusCode.InvalidArgument, "KEY_MISSING");
        await Refused(Lookup.LocateAsync(new() { Fixture = "../etc" }), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        await Refused(Lookup.LocateAsync(new() { Fixture = new('a', 64) }), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        await Refused(Lookup.LocateAsync(new() { Fixture = "nowhere-9", DiameterMetres = 0.09 }), StatusCode.NotFound, "FIXTURE_UNKNOWN");
        await Refused(Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.09, Tag = longest }), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        await Refused(Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.09, RequestId = "a b" }), StatusCode.InvalidArgument,
            "VALUE_MALFORMED");
        await Refused(Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.09, Lot = "A 1" }), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        await Refused(Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.09, Purpose = (Purpose)9 }), StatusCode.InvalidArgument,
            "PURPOSE_UNKNOWN");
        await Refused(Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.09, Column = int.MinValue }), StatusCode.InvalidArgument,
            "NEST_UNKNOWN");
        await Refused(Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.09, Row = int.MaxValue }), StatusCode.InvalidArgument,
            "NEST_UNKNOWN");
        await Refused(Gauge.RecordAsync(new() { Fixture = "pinbed-1" }), StatusCode.InvalidArgument, "DIAMETER_MISSING");
        await Refused(Gauge.RecordAsync(new() { Fixture = "pinbed-1", ReadingsMetres = { Enumerable.Repeat(0.09, 101) } }), StatusCode.InvalidArgument,
            "VALUE_MALFORMED");
        await Refused(Gauge.RecordAsync(new() { Fixture = "pinbed-1", ReadingsMetres = { 0.09 }, Unit = "furlong" }), StatusCode.InvalidArgument,
            "UNIT_UNKNOWN");
        await Refused(Gauge.RecordAsync(new() { Fixture = "pinbed-1", ReadingsMetres = { 0.09 }, Gauge = "bench-9" }), StatusCode.NotFound, "GAUGE_UNKNOWN");
        await Refused(Lookup.ConfirmAsync(new() { Serial = 1, ReadBack = { ["by"] = new('1', 41) } }), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        await Refused(Lookup.ConfirmAsync(new() { Serial = 1, ReadBack = { Enumerable.Range(0, 21).ToDictionary(i => $"n{i}", _ => "1") } }),
            StatusCode.InvalidArgument, "VALUE_MALFORMED");
        await Refused(Fixtures.AdoptAsync(new() { Fixture = "pinbed-1", Revision = 3, By = new('a', 401), Why = "x" }), StatusCode.InvalidArgument,
            "VALUE_MALFORMED");
        await Refused(Fixtures.AdoptAsync(new() { Fixture = "pinbed-1", Revision = 3, By = "x", Why = "  " }), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        await Refused(Fixtures.AdoptAsync(new() { Fixture = "nowhere-9", Revision = 3, By = "x", Why = "x" }), StatusCode.NotFound, "FIXTURE_UNKNOWN");
    }

    [Fact]
    public async Task A_message_that_is_too_large_is_refused_and_the_next_is_answered()
    {
        var e = await Assert.ThrowsAsync<RpcException>(() => Lookup.LocateAsync(new() { Fixture = new('a', 100_000) }).ResponseAsync);
        Assert.Equal(StatusCode.ResourceExhausted, e.StatusCode);

        Assert.NotEqual(0, (await Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924 })).Serial);
    }

    [Fact]
    public async Task A_retry_with_the_same_request_id_gets_the_first_outcome()
    {
        var locate = new LocateRequest { Fixture = "pinbed-1", DiameterMetres = 0.0924, RequestId = "r-1" };
        var first = await Lookup.LocateAsync(locate);
        var record = new RecordRequest { Fixture = "pinbed-1", ReadingsMetres = { 0.0924 }, RequestId = "r-2" };
        var measured = await Gauge.RecordAsync(record);
        await Bench.Restart();

        Assert.Equal(first, await Lookup.LocateAsync(locate));
        Assert.Equal(measured, await Gauge.RecordAsync(record));
        Assert.NotEqual(first.Serial, (await Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924, RequestId = "r-3" })).Serial);
    }

    [Fact]
    public async Task The_request_id_of_another_request_is_refused()
    {
        await Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924, RequestId = "r-1" });

        await Refused(Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0925, RequestId = "r-1" }), StatusCode.InvalidArgument,
            "VALUE_MALFORMED");
    }

    [Theory]
    [InlineData("")]
    [InlineData("stockseat.v1.LookupService")]
    [InlineData("stockseat.v1.LedgerService")]
    public async Task The_service_is_healthy(string name) =>
        Assert.Equal(HealthCheckResponse.Types.ServingStatus.Serving,
            (await new global::Grpc.Health.V1.Health.HealthClient(Bench.Channel).CheckAsync(new() { Service = name })).Status);

    [Fact]
    public async Task Reflection_lists_the_services()
    {
        using var call = new ServerReflection.ServerReflectionClient(Bench.Channel).ServerReflectionInfo();
        await call.RequestStream.WriteAsync(new() { ListServices = "" });
        await call.RequestStream.CompleteAsync();
        Assert.True(await call.ResponseStream.MoveNext(CancellationToken.None));

        var names = call.ResponseStream.Current.ListServicesResponse.Service.Select(s => s.Name).ToList();
        string[] expected = ["grpc.health.v1.Health", "stockseat.v1.FixtureService", "stockseat.v1.GaugeService", "stockseat.v1.LedgerService",
            "stockseat.v1.LookupService"];
        Assert.Equal(expected, names.Intersect(expected).Order(StringComparer.Ordinal));
        Assert.False(await call.ResponseStream.MoveNext(CancellationToken.None));
    }

    [Fact]
    public async Task A_caller_whose_address_belongs_to_no_client_is_not_permitted()
    {
        await using var bench = await Bench.Start(configure: s => s["Clients"]![0]!["From"]![0] = "127.0.0.2/32");

        await Refused(new LookupService.LookupServiceClient(bench.Channel).LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924 }),
            StatusCode.PermissionDenied, "NOT_PERMITTED");
        await Refused(new LedgerService.LedgerServiceClient(bench.Channel).ListEntriesAsync(new()), StatusCode.PermissionDenied, "NOT_PERMITTED");
        await Refused(new LedgerService.LedgerServiceClient(bench.Channel).VerifyAsync(new()), StatusCode.PermissionDenied, "NOT_PERMITTED");
        await Refused(new FixtureService.FixtureServiceClient(bench.Channel).ListFixturesAsync(new()), StatusCode.PermissionDenied, "NOT_PERMITTED");
    }

    [Fact]
    public async Task A_stranger_is_told_why_however_much_it_sends()
    {
        await using var bench = await Bench.Start(configure: s => s["Clients"]![0]!["From"]![0] = "127.0.0.2/32");

        for (var i = 0; i < 30; i++)
        {
            using var channel = LimitedChannel.For(bench.Service.Grpc);
            await Refused(
                new LookupService.LookupServiceClient(channel).LocateAsync(new() { Fixture = new string('a', 40_000) }), StatusCode.PermissionDenied,
                "NOT_PERMITTED");
        }
    }
}
