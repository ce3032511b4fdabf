using System.Text.Json.Nodes;
using Grpc.Core;
using Stockseat.Service.Tests.Support;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Grpc;

public sealed class HoldTests : GrpcCase
{
    private static readonly LocateRequest Ask = new() { Fixture = "pinbed-1", DiameterMetres = 0.0924 };

    [Fact]
    public async Task A_held_fixture_answers_nothing_until_its_last_hold_is_released_also_across_restarts()
    {
        var held = await Fixtures.HoldAsync(new() { Fixture = "pinbed-1", By = " setter ", Why = "pins are changed" });
        await Fixtures.HoldAsync(new() { Fixture = "pinbed-1", By = "maintenance", Why = "air is off" });
        await Bench.Restart();

        var info = await Refused(Lookup.LocateAsync(Ask), StatusCode.FailedPrecondition, "FIXTURE_HELD");
        Assert.Equal(("2", "setter", $"{held.Serial}"), (info.Metadata["holds"], info.Metadata["held_by"], info.Metadata["since_serial"]));
        Assert.Equal(1, (await Fixtures.ReleaseAsync(new() { Fixture = "pinbed-1", By = "setter", Why = "done" })).Left);
        await Refused(Lookup.LocateAsync(Ask), StatusCode.FailedPrecondition, "FIXTURE_HELD");
        Assert.Equal(0, (await Fixtures.ReleaseAsync(new() { Fixture = "pinbed-1", By = "foreman", Why = "they went home", Of = "maintenance" })).Left);
        Assert.Equal(3, (await Lookup.LocateAsync(Ask)).Revision);
        Assert.True((await Ledger.VerifyAsync(new())).Whole);
    }

    [Fact]
    public async Task Holds_are_listed_with_the_fixture()
    {
        var first = await Fixtures.HoldAsync(new() { Fixture = "pinbed-1", By = "setter", Why = "pins are changed" });
        await Fixtures.HoldAsync(new() { Fixture = "pinbed-1", By = "apprentice", Why = "watches" });

        var list = (await Fixtures.ListFixturesAsync(new())).Fixtures;
        var pins = list.Single(f => f.Fixture_ == "pinbed-1");
        Assert.Equal(("fixture-held", 2), (pins.Refused, pins.Holds.Count));
        Assert.Equal(("setter", "pins are changed", first.Serial), (pins.Holds[0].By, pins.Holds[0].Why, pins.Holds[0].Serial));
        Assert.Equal((await Ledger.GetEntryAsync(new() { Serial = first.Serial })).Entry.At, pins.Holds[0].At);
        Assert.All(list.Where(f => f != pins), f => Assert.Equal(("", 0), (f.Refused, f.Holds.Count)));
    }

    [Fact]
    public async Task A_hold_or_release_that_is_not_possible_is_refused()
    {
        await Refused(Fixtures.HoldAsync(new() { Fixture = "nowhere-9", By = "x", Why = "x" }), StatusCode.NotFound, "FIXTURE_UNKNOWN");
        await Refused(Fixtures.HoldAsync(new() { By = "x", Why = "x" }), StatusCode.InvalidArgument, "KEY_MISSING");
        await Refused(Fixtures.HoldAsync(new() { Fixture = "pinbed-1", By = " ", Why = "x" }), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        await Refused(Fixtures.HoldAsync(new() { Fixture = "pinbed-1", By = "x", Why = new('a', 401) }), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        await Refused(Fixtures.ReleaseAsync(new() { Fixture = "pinbed-1", By = "x", Why = "x" }), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        await Refused(Fixtures.ReleaseAsync(new() { Fixture = "pinbed-1", By = "x", Why = "x", Of = new('a', 401) }), StatusCode.InvalidArgument,
            "VALUE_MALFORMED");
        Assert.NotEqual(0, (await Lookup.LocateAsync(Ask)).Serial);
        Assert.NotEqual(0, (await Fixtures.HoldAsync(new() { Fixture = "pinbed-1", By = new('a', 400), Why = "x" })).Serial);
    }

    [Fact]
    public async Task A_retry_gets_the_first_outcome_while_it_counts_also_across_restarts()
    {
        var hold = new HoldRequest { Fixture = "pinbed-1", By = "setter", Why = "pins", RequestId = "h-1" };
        var release = new ReleaseRequest { Fixture = "pinbed-1", By = "setter", Why = "done", RequestId = "h-2" };
        var held = await Fixtures.HoldAsync(hold);
        await Bench.Restart();
        Assert.Equal(held, await Fixtures.HoldAsync(hold));
        var released = await Fixtures.ReleaseAsync(release);
        await Bench.Restart();

        await Refused(Fixtures.HoldAsync(hold), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        Assert.Equal(released, await Fixtures.ReleaseAsync(release));
        Assert.NotEqual(0, (await Lookup.LocateAsync(Ask)).Serial);
        Assert.Single((await Ledger.ListEntriesAsync(new() { Kind = "held" })).Entries);
        Assert.Single((await Ledger.ListEntriesAsync(new() { Kind = "released" })).Entries);
    }

    [Fact]
    public async Task Without_the_role_nothing_is_held_or_released()
    {
        await using var bench = await Bench.Start(configure: s => s["Clients"]![0]!["Roles"] = new JsonArray("locate", "measure", "review"));
        var fixtures = new FixtureService.FixtureServiceClient(bench.Channel);

        await Refused(fixtures.HoldAsync(new() { Fixture = "pinbed-1", By = "x", Why = "x" }), StatusCode.PermissionDenied, "NOT_PERMITTED");
        await Refused(fixtures.ReleaseAsync(new() { Fixture = "pinbed-1", By = "x", Why = "x" }), StatusCode.PermissionDenied, "NOT_PERMITTED");
        Assert.NotEqual(0, (await new LookupService.LookupServiceClient(bench.Channel).LocateAsync(Ask)).Serial);
        Assert.Equal(2, (await new LedgerService.LedgerServiceClient(bench.Channel).ListEntriesAsync(new() { Kind = "refusal" })).Entries.Count);
    }
}
