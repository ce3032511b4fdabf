using Google.Rpc;
using Grpc.Core;
using Grpc.Health.V1;
using Grpc.Reflection.V1Alpha;
using Stockseat.Service.Tests.Support;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Grpc;

public sealed class GrpcTests : IAsyncLifetime
{
    private Bench? _bench;

    public static TheoryData<double> BadDiameters => [double.NaN, double.PositiveInfinity, double.NegativeInfinity, -0.05, 0, -0.0, 10.000001, 1e300];

    public static TheoryData<int> BadPages => [-1, 1001, int.MinValue, int.MaxValue];

    private Bench Bench => _bench!;

    private LookupService.LookupServiceClient Lookup => new(Bench.Channel);

    private GaugeService.GaugeServiceClient Gauge => new(Bench.Channel);

    private FixtureService.FixtureServiceClient Fixtures => new(Bench.Channel);

    private LedgerService.LedgerServiceClient Ledger => new(Bench.Channel);

    public async ValueTask InitializeAsync() => _bench = await Bench.Start();

    public async ValueTask DisposeAsync() => await Bench.DisposeAsync();

    [Fact]
    public async Task An_answer_holds_the_numbers_of_the_design_unrounded()
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
    public async Task A_measurement_is_the_mean_of_its_readings_and_is_used()
    {
        var measured = await Gauge.RecordAsync(new() { Fixture = "pinbed-1", ReadingsMetres = { 0.0924, 0.09245, 0.09241 }, Gauge = "bench-2", Lot = "A1077", Unit = "mm" });
        var answer = await Lookup.LocateAsync(new() { Fixture = "pinbed-1", Lot = "A1077" });

        Assert.Equal(0.09242, measured.DiameterMetres, 1e-12);
        Assert.Equal((measured.Serial, measured.DiameterMetres), (answer.Measurement, answer.DiameterMetres));
        Assert.True(answer.HasAgeSeconds);
    }

    [Fact]
    public async Task Readings_that_spread_too_far_are_refused_with_the_limit()
    {
        var info = await Refused(Gauge.RecordAsync(new() { Fixture = "pinbed-1", ReadingsMetres = { 0.0924, 0.0926 }, Gauge = "bench-2" }), StatusCode.FailedPrecondition, "READINGS_DISAGREE");

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

    [Fact]
    public async Task Numbers_read_back_are_compared()
    {
        var answer = await Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924 });

        Assert.Equal(answer.Serial, (await Lookup.ConfirmAsync(new() { Serial = answer.Serial, ReadBack = { ["by"] = "0.008213" } })).Confirms);
        var info = await Refused(Lookup.ConfirmAsync(new() { Serial = answer.Serial, ReadBack = { ["by"] = "0.008123" } }), StatusCode.FailedPrecondition, "READBACK_DIFFERS");
        Assert.Equal(("by", "0.008213", "0.008123"), (info.Metadata["name"], info.Metadata["served"], info.Metadata["read"]));
        await Refused(Lookup.ConfirmAsync(new() { Serial = 1 }), StatusCode.NotFound, "SERIAL_UNKNOWN");
        await Refused(Lookup.ConfirmAsync(new() { Serial = long.MinValue }), StatusCode.NotFound, "SERIAL_UNKNOWN");
    }

    [Theory]
    [MemberData(nameof(BadDiameters))]
    public async Task A_diameter_that_is_none_is_refused_and_the_next_is_answered(double metres)
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

    [Fact]
    public async Task What_is_malformed_is_refused_with_its_reason()
    {
        var longest = new string('a', 41);
        await Refused(Lookup.LocateAsync(new()), StatusCode.InvalidArgument, "KEY_MISSING");
        await Refused(Lookup.LocateAsync(new() { Fixture = "../etc" }), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        await Refused(Lookup.LocateAsync(new() { Fixture = new('a', 64) }), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        await Refused(Lookup.LocateAsync(new() { Fixture = "nowhere-9", DiameterMetres = 0.09 }), StatusCode.NotFound, "FIXTURE_UNKNOWN");
        await Refused(Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.09, Tag = longest }), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        await Refused(Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.09, RequestId = "a b" }), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        await Refused(Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.09, Lot = "A1" }), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        await Refused(Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.09, Purpose = (Purpose)9 }), StatusCode.InvalidArgument, "PURPOSE_UNKNOWN");
        await Refused(Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.09, Column = int.MinValue }), StatusCode.InvalidArgument, "NEST_UNKNOWN");
        await Refused(Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.09, Row = int.MaxValue }), StatusCode.InvalidArgument, "NEST_UNKNOWN");
        await Refused(Gauge.RecordAsync(new() { Fixture = "pinbed-1" }), StatusCode.InvalidArgument, "DIAMETER_MISSING");
        await Refused(Gauge.RecordAsync(new() { Fixture = "pinbed-1", ReadingsMetres = { Enumerable.Repeat(0.09, 101) } }), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        await Refused(Gauge.RecordAsync(new() { Fixture = "pinbed-1", ReadingsMetres = { 0.09 }, Unit = "furlong" }), StatusCode.InvalidArgument, "UNIT_UNKNOWN");
        await Refused(Gauge.RecordAsync(new() { Fixture = "pinbed-1", ReadingsMetres = { 0.09 }, Gauge = "bench-9" }), StatusCode.NotFound, "GAUGE_UNKNOWN");
        await Refused(Lookup.ConfirmAsync(new() { Serial = 1, ReadBack = { ["by"] = new('1', 41) } }), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        await Refused(Lookup.ConfirmAsync(new() { Serial = 1, ReadBack = { Enumerable.Range(0, 21).ToDictionary(i => $"n{i}", _ => "1") } }), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        await Refused(Fixtures.AdoptAsync(new() { Fixture = "pinbed-1", Revision = 3, By = new('a', 401), Why = "x" }), StatusCode.InvalidArgument, "VALUE_MALFORMED");
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
    public async Task A_request_id_is_not_taken_for_another_request()
    {
        await Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924, RequestId = "r-1" });

        await Refused(Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0925, RequestId = "r-1" }), StatusCode.InvalidArgument, "VALUE_MALFORMED");
    }

    [Fact]
    public async Task A_revision_that_is_written_while_the_service_runs_serves_once_it_is_adopted()
    {
        Bench.WritePins(4);
        Assert.Equal(3, (await Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924 })).Revision);

        // Asking for one that is not there reads the folder anew and adopts nothing.
        await Refused(Fixtures.AdoptAsync(new() { Fixture = "pinbed-1", Revision = 9, By = "setter", Why = "a slip" }), StatusCode.NotFound, "REVISION_UNKNOWN");
        var waiting = (await Fixtures.ListFixturesAsync(new())).Fixtures.Single(f => f.Fixture_ == "pinbed-1");
        Assert.Equal([4], waiting.Waiting);
        Assert.Equal(3, waiting.Revision);
        Assert.False((await Fixtures.GetRevisionAsync(new() { Fixture = "pinbed-1", Revision = 4 })).InForce);

        var adopted = await Fixtures.AdoptAsync(new() { Fixture = "pinbed-1", Revision = 4, By = "setter", Why = "new pins" });
        var answer = await Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924 });
        Assert.Equal((4, adopted.Digest, true), (answer.Revision, answer.Digest, answer.First));
        Assert.Empty((await Fixtures.ListFixturesAsync(new())).Fixtures.Single(f => f.Fixture_ == "pinbed-1").Waiting);
        await Refused(Fixtures.AdoptAsync(new() { Fixture = "pinbed-1", Revision = 3, By = "setter", Why = "back" }), StatusCode.InvalidArgument, "VALUE_MALFORMED");
    }

    [Fact]
    public async Task A_faulty_revision_is_not_adopted_and_the_one_in_force_serves_on()
    {
        Bench.WritePins(4, edits: ("\"spacing\": \"60 mm\"", "\"spacing\": \"60\""));

        var e = await Assert.ThrowsAsync<RpcException>(() => Fixtures.AdoptAsync(new() { Fixture = "pinbed-1", Revision = 4, By = "setter", Why = "new pins" }).ResponseAsync);
        Assert.Equal("CALIBRATION_UNUSABLE", e.GetRpcStatus()!.GetDetail<ErrorInfo>()!.Reason);
        Assert.Contains("nest.pins.spacing", e.Status.Detail, StringComparison.Ordinal);
        Assert.NotEmpty((await Fixtures.ListFixturesAsync(new())).Fixtures.Single(f => f.Fixture_ == "pinbed-1").Faults);
        Assert.Equal(3, (await Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924 })).Revision);
    }

    [Fact]
    public async Task A_revision_in_force_whose_file_changed_serves_no_more_until_it_is_restored()
    {
        Bench.WritePins(3, edits: ("\"spacing\": \"60 mm\"", "\"spacing\": \"61 mm\""));
        await Refused(Fixtures.AdoptAsync(new() { Fixture = "pinbed-1", Revision = 3, By = "setter", Why = "again" }), StatusCode.FailedPrecondition, "REVISION_CHANGED");
        await Refused(Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924 }), StatusCode.FailedPrecondition, "REVISION_CHANGED");

        Bench.WritePins(3);
        await Fixtures.AdoptAsync(new() { Fixture = "pinbed-1", Revision = 3, By = "setter", Why = "restored" });
        Assert.Equal(3, (await Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924 })).Revision);
    }

    [Fact]
    public async Task All_fixtures_are_listed_with_their_state()
    {
        var measured = await Gauge.RecordAsync(new() { Fixture = "pinbed-1", ReadingsMetres = { 0.0924 }, Lot = "A1077" });
        var list = await Fixtures.ListFixturesAsync(new());

        Assert.Equal(["pinbed-1", "rollers-3", "veerack-2"], list.Fixtures.Select(f => f.Fixture_));
        Assert.Equal((measured.Serial, true), (list.Serial, list.LedgerWritable));
        var pins = list.Fixtures[0];
        Assert.Equal((3, "", measured.Serial, 0.0924, "A1077"), (pins.Revision, pins.Refused, pins.Measurement, pins.MeasuredMetres, pins.Lot));
        Assert.False(list.Fixtures[1].HasMeasurement);
    }

    [Fact]
    public async Task A_revision_is_shown_as_what_its_digest_covers()
    {
        var shown = await Fixtures.GetRevisionAsync(new() { Fixture = "pinbed-1" });

        Assert.Equal((3, true), (shown.Revision, shown.InForce));
        var hash = System.Security.Cryptography.SHA256.HashData(System.Text.Encoding.UTF8.GetBytes(shown.ContentJson));
        Assert.Equal(Convert.ToHexStringLower(hash), shown.Digest);
        Assert.False((await Fixtures.GetRevisionAsync(new() { Fixture = "pinbed-1", Revision = 1 })).InForce);
        await Refused(Fixtures.GetRevisionAsync(new() { Fixture = "pinbed-1", Revision = 9 }), StatusCode.NotFound, "REVISION_UNKNOWN");
        await Refused(Fixtures.GetRevisionAsync(new() { Fixture = "nowhere-9" }), StatusCode.NotFound, "FIXTURE_UNKNOWN");
    }

    [Fact]
    public async Task Entries_come_in_pages_that_hold_each_once()
    {
        await Fill();
        var all = (await Ledger.ListEntriesAsync(new())).Entries;
        var paged = new List<Entry>();
        var token = "";
        do
        {
            var page = await Ledger.ListEntriesAsync(new() { PageSize = 3, PageToken = token });
            Assert.InRange(page.Entries.Count, 1, 3);
            paged.AddRange(page.Entries);
            token = page.NextPageToken;
        }
        while (token.Length > 0);

        Assert.Equal(all, paged);
        Assert.Equal(Enumerable.Range(1, all.Count).Select(i => (long)i), all.Select(e => e.Serial));
        Assert.All(all, e => Assert.Equal(32, e.Hash.Length));
    }

    [Fact]
    public async Task Entries_are_filtered()
    {
        await Fill();

        Assert.All((await Ledger.ListEntriesAsync(new() { Fixture = "rollers-3" })).Entries, e => Assert.Equal("rollers-3", e.Fixture));
        Assert.Equal(2, (await Ledger.ListEntriesAsync(new() { Fixture = "rollers-3" })).Entries.Count);
        Assert.Equal(5, (await Ledger.ListEntriesAsync(new() { Kind = "answer" })).Entries.Count);
        Assert.Equal("t3", Assert.Single((await Ledger.ListEntriesAsync(new() { Tag = "t3" })).Entries).Tag);
        Assert.Equal(6, (await Ledger.ListEntriesAsync(new() { Client = "bench" })).Entries.Count);
        Assert.Empty((await Ledger.ListEntriesAsync(new() { Client = "' OR 1=1 --" })).Entries);
        Assert.Equal([9L, 10L], (await Ledger.ListEntriesAsync(new() { After = 8 })).Entries.Select(e => e.Serial));
    }

    [Theory]
    [InlineData(-2, new long[] { 9, 10 })]
    [InlineData(-1000, new long[] { 1, 2, 3, 4, 5, 6, 7, 8, 9, 10 })]
    [InlineData(long.MinValue, new long[] { 1, 2, 3, 4, 5, 6, 7, 8, 9, 10 })]
    [InlineData(long.MaxValue, new long[0])]
    public async Task The_newest_entries_are_listed_in_order(long after, long[] serials)
    {
        await Fill();

        Assert.Equal(serials, (await Ledger.ListEntriesAsync(new() { After = after })).Entries.Select(e => e.Serial));
    }

    [Theory]
    [MemberData(nameof(BadPages))]
    public async Task A_page_of_no_size_is_refused(int size) =>
        await Refused(Ledger.ListEntriesAsync(new() { PageSize = size }), StatusCode.InvalidArgument, "VALUE_MALFORMED");

    [Theory]
    [InlineData("x")]
    [InlineData("-1")]
    [InlineData("99999999999999999999")]
    public async Task A_page_token_of_somebody_else_is_refused(string token) =>
        await Refused(Ledger.ListEntriesAsync(new() { PageToken = token }), StatusCode.InvalidArgument, "VALUE_MALFORMED");

    [Fact]
    public async Task A_ledger_in_use_verifies_whole()
    {
        await Fill();
        var verified = await Ledger.VerifyAsync(new());

        Assert.Equal((true, 10L, 10L, 64, ""), (verified.Whole, verified.Entries, verified.HeadSerial, verified.HeadHash.Length, verified.Unreadable));
        Assert.Empty(verified.Faults);
    }

    [Theory]
    [InlineData("")]
    [InlineData("stockseat.v1.LookupService")]
    [InlineData("stockseat.v1.LedgerService")]
    public async Task The_service_is_healthy(string name) =>
        Assert.Equal(HealthCheckResponse.Types.ServingStatus.Serving, (await new global::Grpc.Health.V1.Health.HealthClient(Bench.Channel).CheckAsync(new() { Service = name })).Status);

    [Fact]
    public async Task Reflection_lists_the_services()
    {
        using var call = new ServerReflection.ServerReflectionClient(Bench.Channel).ServerReflectionInfo();
        await call.RequestStream.WriteAsync(new() { ListServices = "" });
        await call.RequestStream.CompleteAsync();
        Assert.True(await call.ResponseStream.MoveNext(CancellationToken.None));

        var names = call.ResponseStream.Current.ListServicesResponse.Service.Select(s => s.Name).ToList();
        string[] expected = ["grpc.health.v1.Health", "stockseat.v1.FixtureService", "stockseat.v1.GaugeService", "stockseat.v1.LedgerService", "stockseat.v1.LookupService"];
        Assert.Equal(expected, names.Intersect(expected).Order(StringComparer.Ordinal));
        Assert.False(await call.ResponseStream.MoveNext(CancellationToken.None));
    }

    [Fact]
    public async Task A_caller_that_no_client_holds_is_not_permitted()
    {
        await using var bench = await Bench.Start(configure: s => s["Clients"]![0]!["From"]![0] = "127.0.0.2/32");

        await Refused(new LookupService.LookupServiceClient(bench.Channel).LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924 }), StatusCode.PermissionDenied, "NOT_PERMITTED");
        await Refused(new LedgerService.LedgerServiceClient(bench.Channel).ListEntriesAsync(new()), StatusCode.PermissionDenied, "NOT_PERMITTED");
        await Refused(new LedgerService.LedgerServiceClient(bench.Channel).VerifyAsync(new()), StatusCode.PermissionDenied, "NOT_PERMITTED");
        await Refused(new FixtureService.FixtureServiceClient(bench.Channel).ListFixturesAsync(new()), StatusCode.PermissionDenied, "NOT_PERMITTED");
    }

    /// <summary>Ten entries: the start, three adoptions, five answers and a measurement.</summary>
    private async Task Fill()
    {
        for (var i = 0; i < 5; i++)
        {
            await Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924, Tag = $"t{i}" });
        }

        await Gauge.RecordAsync(new() { Fixture = "rollers-3", ReadingsMetres = { 0.0924 } });
    }

    private static async Task<ErrorInfo> Refused<T>(AsyncUnaryCall<T> call, StatusCode status, string reason)
    {
        var e = await Assert.ThrowsAsync<RpcException>(() => call.ResponseAsync);
        var info = e.GetRpcStatus()?.GetDetail<ErrorInfo>();
        Assert.NotNull(info);
        Assert.Equal((reason, "stockseat", status), (info.Reason, info.Domain, e.StatusCode));
        return info;
    }
}
