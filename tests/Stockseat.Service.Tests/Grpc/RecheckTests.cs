using System.Text.Json.Nodes;
using Grpc.Core;
using Stockseat.Service.Tests.Support;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Grpc;

public sealed class RecheckTests : GrpcCase
{
    private static readonly LocateRequest Ask = new() { Fixture = "pinbed-1", DiameterMetres = 0.08 };

    [Fact]
    public async Task The_reply_the_entry_and_the_list_of_a_recheck_agree()
    {
        var made = (await Fixtures.RecheckAsync(Request(0.0001))).Recheck;

        Assert.Equal(("pinbed-1", 3, "setter", "master seated", 0.08, RecheckVerdict.Passed),
            (made.Fixture, made.Revision, made.By, made.Note, made.MasterMetres, made.Verdict));
        // At the taught diameter the taught origin is where the master should be; it was found up the bed's slope, along the seat axis.
        Near([0.4123, -0.205, 0.118], made.PredictedMetres);
        Near([-0.0000576, 0.0000768, 0.000028], made.MissBaseMetres);
        Assert.Equal((0.0001, 0.0, 0.0), (Math.Round(made.Miss.AlongMetres, 9), Math.Round(made.Miss.AcrossMetres, 9),
            Math.Round(made.Miss.OutOfPlanMetres, 9)));
        Assert.True(made.Expected.AlongMetres > 0 && made.Expected.AcrossMetres > 0);
        Assert.False(made.HasLimitMetres || made.HasMasterWithinMetres || made.RefusesAsks);
        Assert.Equal(made, Assert.Single((await Fixtures.ListRechecksAsync(new() { Fixture = "pinbed-1" })).Rechecks));
        Assert.Equal(made.At, (await Ledger.GetEntryAsync(new() { Serial = made.Serial })).Entry.At);
        Assert.Null((await Pins()).Missed);
        Assert.True((await Ledger.VerifyAsync(new())).Whole);
    }

    [Fact]
    public async Task Without_RefuseAfterMiss_a_miss_shows_with_the_fixture_and_answers_continue()
    {
        await using var bench = await Bench.Start(configure: s => s["RefuseAfterMiss"] = false);
        var miss = (await new FixtureService.FixtureServiceClient(bench.Channel).RecheckAsync(Request(0.002))).Recheck;
        await bench.Restart();
        var (fixtures, lookup) = (new FixtureService.FixtureServiceClient(bench.Channel), new LookupService.LookupServiceClient(bench.Channel));

        Assert.Equal((RecheckVerdict.Missed, false), (miss.Verdict, miss.RefusesAsks));
        Assert.Equal(miss, (await fixtures.ListFixturesAsync(new())).Fixtures.Single(f => f.Fixture_ == "pinbed-1").Missed);
        Assert.NotEqual(0, (await lookup.LocateAsync(Ask)).Serial);
    }

    [Fact]
    public async Task A_miss_refuses_asks_until_another_revision_is_adopted()
    {
        await using var bench = await Bench.Start();
        var miss = (await new FixtureService.FixtureServiceClient(bench.Channel).RecheckAsync(Request(0.002))).Recheck;
        await bench.Restart(() => bench.WritePins(4));
        var (fixtures, lookup) = (new FixtureService.FixtureServiceClient(bench.Channel), new LookupService.LookupServiceClient(bench.Channel));
        using var line = await bench.Line();

        Assert.True(miss.RefusesAsks);
        var info = await Refused(lookup.LocateAsync(Ask), StatusCode.FailedPrecondition, "RECHECK_FAILED");
        Assert.Equal(($"{miss.Serial}", "0.002000"), (info.Metadata["serial"], info.Metadata["miss_metres"]));
        Assert.Contains("answers=no reason=recheck-failed", await line.Ask("status fixture=pinbed-1"), StringComparison.Ordinal);
        Assert.Equal("recheck-failed", (await fixtures.ListFixturesAsync(new())).Fixtures.Single(f => f.Fixture_ == "pinbed-1").Refused);
        await fixtures.AdoptAsync(new() { Fixture = "pinbed-1", Revision = 4, By = "setter", Why = "calibrated" });
        Assert.Equal(4, (await lookup.LocateAsync(Ask)).Revision);
        Assert.Null((await fixtures.ListFixturesAsync(new())).Fixtures.Single(f => f.Fixture_ == "pinbed-1").Missed);
    }

    /// <summary>The demo's bed states 60 mm to 100 mm and has 6 × 4 nests: a second master has to differ by 8 mm, and the far nests are 5,0 and 0,3.</summary>
    [Fact]
    public async Task What_a_proof_lacks_shows_in_numbers_and_words_and_the_line_says_that_it_is_not_proven()
    {
        await Fixtures.RecheckAsync(Request(0.0001));

        var pins = await Pins();
        Assert.Equal([(0, 0), (5, 0), (0, 3)], pins.Lacking.Select(l => (l.Column, l.Row)));
        Assert.Equal((72, 88), (Math.Round(1000 * pins.Lacking[0].AtMostMetres, 6), Math.Round(1000 * pins.Lacking[0].AtLeastMetres, 6)));
        Assert.False(pins.Lacking[1].HasAtMostMetres || pins.Lacking[1].HasAtLeastMetres);
        Assert.Equal("seat a master of 72 mm or less, or of 88 mm or more, in nest 0,0", pins.Unproven[0]);
        using var line = await Bench.Line();
        Assert.Equal("no", LineClient.Value(await line.Ask("status fixture=pinbed-1"), "proven"));

        // The far nests: 5 · 125 mm along u = (0.8, 0.6, 0), 3 · 130 mm along v. Then a master of 90 mm, √(51² − 30²) − √(46² − 30²) mm further along v.
        await Fixtures.RecheckAsync(Request(0, r => (r.Column, r.FoundMetres) = (5, new() { X = 0.9123, Y = 0.17, Z = 0.118 })));
        await Fixtures.RecheckAsync(Request(0.39, r => r.Row = 3));
        Assert.Equal((0, 0), Assert.Single((await Pins()).Lacking.Select(l => (l.Column, l.Row))));
        await Fixtures.RecheckAsync(Request((Math.Sqrt(1701) - Math.Sqrt(1216)) / 1000, r => r.MasterMetres = 0.09));
        Assert.Empty((await Pins()).Lacking);
        Assert.Equal("yes", LineClient.Value(await line.Ask("status fixture=pinbed-1"), "proven"));
    }

    [Fact]
    public async Task Pages_go_back_from_the_newest_recheck()
    {
        var made = new List<Recheck>();
        for (var i = 0; i < 5; i++)
        {
            made.Add((await Fixtures.RecheckAsync(Request(i * 1e-6))).Recheck);
        }

        var newest = await Fixtures.ListRechecksAsync(new() { Fixture = "pinbed-1", PageSize = 2 });
        var before = await Fixtures.ListRechecksAsync(new() { Fixture = "pinbed-1", PageSize = 2, PageToken = newest.NextPageToken });
        var rest = await Fixtures.ListRechecksAsync(new() { Fixture = "pinbed-1", PageSize = 2, PageToken = before.NextPageToken });

        Assert.Equal(made, [.. rest.Rechecks, .. before.Rechecks, .. newest.Rechecks]);
        Assert.Equal("", rest.NextPageToken);
        Assert.Equal("", (await Fixtures.ListRechecksAsync(new() { Fixture = "pinbed-1", PageSize = 5 })).NextPageToken);
        await Refused(Fixtures.ListRechecksAsync(new() { Fixture = "pinbed-1", PageSize = 1001 }), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        await Refused(Fixtures.ListRechecksAsync(new() { Fixture = "pinbed-1", PageToken = "x" }), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        Assert.Empty((await Fixtures.ListRechecksAsync(new() { Fixture = "veerack-2" })).Rechecks);
    }

    [Fact]
    public async Task A_recheck_that_can_not_be_compared_is_refused_and_one_that_can_not_be_read_has_no_entry()
    {
        await Refused(Fixtures.RecheckAsync(Request(0, r => r.Fixture = "nowhere-9")), StatusCode.NotFound, "FIXTURE_UNKNOWN");
        await Refused(Fixtures.RecheckAsync(Request(0, r => r.Column = 6)), StatusCode.InvalidArgument, "NEST_UNKNOWN");
        await Refused(Fixtures.RecheckAsync(Request(0, r => r.MasterMetres = 0.03)), StatusCode.OutOfRange, "DIAMETER_BELOW_ENVELOPE");
        Assert.Equal(3, (await Ledger.ListEntriesAsync(new() { Kind = "refusal" })).Entries.Count);

        await Refused(Fixtures.RecheckAsync(Request(0, r => r.MasterMetres = double.NaN)), StatusCode.InvalidArgument, "DIAMETER_MALFORMED");
        await Refused(Fixtures.RecheckAsync(Request(0, r => r.MasterWithinMetres = 0)), StatusCode.InvalidArgument, "DIAMETER_MALFORMED");
        await Refused(Fixtures.RecheckAsync(Request(0, r => r.FoundMetres = null)), StatusCode.InvalidArgument, "KEY_MISSING");
        await Refused(Fixtures.RecheckAsync(Request(0, r => r.FoundMetres.Z = 100.1)), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        await Refused(Fixtures.RecheckAsync(Request(0, r => r.FoundMetres.X = double.NaN)), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        await Refused(Fixtures.RecheckAsync(Request(0, r => r.By = " ")), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        await Refused(Fixtures.RecheckAsync(Request(0, r => r.Note = new('a', 401))), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        Assert.Equal(3, (await Ledger.ListEntriesAsync(new() { Kind = "refusal" })).Entries.Count);
    }

    [Fact]
    public async Task A_retry_gets_the_first_outcome_across_restarts()
    {
        var request = Request(0.002, r => r.RequestId = "r-1");
        var first = await Fixtures.RecheckAsync(request);
        await Bench.Restart();

        Assert.Equal(first, await Fixtures.RecheckAsync(request));
        Assert.Single((await Ledger.ListEntriesAsync(new() { Kind = "recheck" })).Entries);
    }

    [Theory]
    [InlineData("review", false, true)]
    [InlineData("calibrate", true, true)]
    [InlineData("measure", false, false)]
    public async Task A_recheck_needs_the_role_calibrate_and_the_list_needs_calibrate_or_review(string role, bool records, bool lists)
    {
        await using var bench = await Bench.Start(configure: s => s["Clients"]![0]!["Roles"] = new JsonArray(role));
        var fixtures = new FixtureService.FixtureServiceClient(bench.Channel);

        var made = await Record.ExceptionAsync(async () => await fixtures.RecheckAsync(Request(0)));
        var listed = await Record.ExceptionAsync(async () => await fixtures.ListRechecksAsync(new() { Fixture = "pinbed-1" }));

        Assert.Equal((records, lists), (made is null, listed is null));
        Assert.All(new[] { made, listed }.OfType<RpcException>(), e => Assert.Equal(StatusCode.PermissionDenied, e.StatusCode));
    }

    [Fact]
    public async Task The_rechecks_of_another_client_s_fixture_are_not_shown()
    {
        await using var bench = await Bench.Start(configure: s => s["Clients"]![0]!["Fixtures"] = new JsonArray("veerack-2"));

        await Refused(new FixtureService.FixtureServiceClient(bench.Channel).ListRechecksAsync(new() { Fixture = "pinbed-1" }), StatusCode.PermissionDenied,
            "NOT_PERMITTED");
    }

    /// <summary>The 80 mm master found so far up the bed's slope: along its seat axis (−0.576, 0.768, 0.28).</summary>
    private static RecheckRequest Request(double along, Action<RecheckRequest>? edit = null)
    {
        var request = new RecheckRequest
        {
            Fixture = "pinbed-1", By = " setter ", Note = "master seated", MasterMetres = 0.08,
            FoundMetres = new() { X = 0.4123 - 0.576 * along, Y = -0.205 + 0.768 * along, Z = 0.118 + 0.28 * along },
        };
        edit?.Invoke(request);
        return request;
    }

    private static void Near(double[] expected, Vector found) =>
        Assert.All(expected.Zip([found.X, found.Y, found.Z]), p => Assert.InRange(p.Second, p.First - 1e-9, p.First + 1e-9));

    private async Task<Fixture> Pins() => (await Fixtures.ListFixturesAsync(new())).Fixtures.Single(f => f.Fixture_ == "pinbed-1");
}
