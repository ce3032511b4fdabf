using Grpc.Core;
using Stockseat.Service.Tests.Support;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Grpc;

public sealed class RollTests : GrpcCase
{
    [Fact]
    public async Task Serials_continue_and_entries_from_before_the_roll_are_found()
    {
        var before = (await Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924, Tag = "a" })).Serial;
        var rolled = await Ledger.RollAsync(new() { By = "setter", Why = "spring", RequestId = "r" });
        var after = (await Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924, Tag = "b" })).Serial;

        Assert.Equal((before + 1, before + 3), (rolled.Serial, after));
        Assert.Equal(["a", "b"], (await Ledger.ListEntriesAsync(new() { Kind = "answer" })).Entries.Select(e => e.Tag));
        Assert.Equal("a", (await Ledger.GetEntryAsync(new() { Serial = before })).Entry.Tag);
        Assert.Equal(Enumerable.Range(1, (int)after), (await Ledger.ListEntriesAsync(new() { After = -1000 })).Entries.Select(e => (int)e.Serial));
        Assert.Equal((true, rolled.Next), ((await Ledger.VerifyAsync(new())).Whole, (await Ledger.VerifyAsync(new())).Ledger));
        Assert.Equal(rolled, await Ledger.RollAsync(new() { By = "setter", Why = "spring", RequestId = "r" }));
        await Lookup.ConfirmAsync(new() { Serial = before });
    }

    [Fact]
    public async Task A_watch_continues_across_a_roll()
    {
        using var watch = Ledger.Watch(new() { After = 0 });
        await Ledger.RollAsync(new() { By = "setter", Why = "spring" });
        await Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924, Tag = "b" });
        await Ledger.RollAsync(new() { By = "setter", Why = "again" });
        var last = (await Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924, Tag = "c" })).Serial;
        var seen = new List<Entry>();
        while (seen.Count < last && await watch.ResponseStream.MoveNext(CancellationToken.None))
        {
            seen.Add(watch.ResponseStream.Current.Entry);
        }

        Assert.Equal(Enumerable.Range(1, (int)last), seen.Select(e => (int)e.Serial));
        Assert.Equal(4, seen.Count(e => e.Kind == "rolled-over"));
    }

    [Fact]
    public async Task A_client_without_the_role_calibrate_may_not_roll()
    {
        await using var bench = await Bench.Start(configure: s => s["Clients"]![0]!["Roles"] = new System.Text.Json.Nodes.JsonArray("locate", "review"));
        var ledger = new LedgerService.LedgerServiceClient(bench.Channel);

        await Refused(ledger.RollAsync(new() { By = "setter", Why = "spring" }), StatusCode.PermissionDenied, "NOT_PERMITTED");
        await Refused(Ledger.RollAsync(new() { Why = "spring" }), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        Assert.False(Directory.Exists(Path.Combine(bench.Folder, "data", "closed")));
    }

    [Fact]
    public async Task Rechecks_from_before_the_roll_are_listed()
    {
        var recheck = new RecheckRequest { Fixture = "pinbed-1", By = "setter", MasterMetres = 0.08,
            FoundMetres = new() { X = 0.4123, Y = -0.205, Z = 0.118 } };
        var first = (await Fixtures.RecheckAsync(recheck)).Recheck.Serial;
        await Ledger.RollAsync(new() { By = "setter", Why = "spring" });
        var second = (await Fixtures.RecheckAsync(recheck)).Recheck.Serial;

        Assert.Equal([first, second], (await Fixtures.ListRechecksAsync(new() { Fixture = "pinbed-1" })).Rechecks.Select(r => r.Serial));
    }

    [Fact]
    public async Task Entries_are_filtered_by_time_lot_and_cell()
    {
        await Gauge.RecordAsync(new() { Fixture = "pinbed-1", ReadingsMetres = { 0.0924 }, Lot = "A1077" });
        await Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924 });
        var all = (await Ledger.ListEntriesAsync(new())).Entries;

        Assert.Equal("measurement", Assert.Single((await Ledger.ListEntriesAsync(new() { Lot = "A1077" })).Entries).Kind);
        Assert.Equal(2, (await Ledger.ListEntriesAsync(new() { Cell = "demo" })).Entries.Count);
        Assert.Equal(all.Take(2), (await Ledger.ListEntriesAsync(new() { Until = 2 })).Entries);
        Assert.Empty((await Ledger.ListEntriesAsync(new() { To = "2020-01-01T00:00:00Z" })).Entries);
        Assert.Equal(all, (await Ledger.ListEntriesAsync(new() { From = all[0].At })).Entries);
        await Refused(Ledger.ListEntriesAsync(new() { From = "2026-11-25T08:00" }), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        await Refused(Ledger.ListEntriesAsync(new() { To = "soon" }), StatusCode.InvalidArgument, "VALUE_MALFORMED");
        await Refused(Ledger.ListEntriesAsync(new() { Until = -1 }), StatusCode.InvalidArgument, "VALUE_MALFORMED");
    }
}
