using System.Net;
using System.Net.Sockets;
using System.Text.Json.Nodes;
using Grpc.Core;
using Stockseat.Service.Tests.Support;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Grpc;

public sealed class WatchTests : GrpcCase
{
    [Fact]
    public async Task History_comes_first_and_then_each_entry_as_it_is_committed()
    {
        await Locate("a");
        using var watch = Ledger.Watch(new() { After = 1 });
        var history = await Take(watch, 4);
        await Locate("b");
        await Locate("c");
        var live = await Take(watch, 2);

        Assert.Equal((await Ledger.ListEntriesAsync(new() { After = 1 })).Entries, history.Concat(live));
        Assert.Equal(["b", "c"], live.Select(e => e.Tag));
    }

    [Fact]
    public async Task Without_a_serial_a_watch_begins_with_the_next_entry()
    {
        await Locate("before");
        using var watch = Ledger.Watch(new());
        await Begun(watch);
        await Locate("after");

        Assert.Equal("after", Assert.Single(await Take(watch, 1)).Tag);
    }

    [Fact]
    public async Task A_watch_is_filtered_as_a_list_is()
    {
        using var tagged = Ledger.Watch(new() { After = 0, Tag = "b", Fixture = "pinbed-1", Kind = "answer", Client = "bench" });
        using var pushes = Ledger.Watch(new() { After = 0, Kind = "measurement" });
        await Locate("a");
        await Gauge.RecordAsync(new() { Fixture = "pinbed-1", ReadingsMetres = { 0.0924 }, Tag = "b" });
        await Locate("b");

        Assert.Equal(("b", "answer"), (await Take(tagged, 1)).Select(e => (e.Tag, e.Kind)).Single());
        Assert.Equal("measurement", Assert.Single(await Take(pushes, 1)).Kind);
    }

    [Fact]
    public async Task A_watch_that_is_not_read_delays_nobody_and_then_gets_all_entries_in_order()
    {
        const int Entries = 2000;
        using var watch = Ledger.Watch(new() { After = 0 });
        await Begun(watch);
        await Task.WhenAll(Enumerable.Range(0, Entries).Select(i => Locate($"{i}")));
        var last = (await Fixtures.ListFixturesAsync(new())).Serial;

        var all = await Take(watch, (int)last);

        Assert.True(last > Entries);
        Assert.Equal(Enumerable.Range(1, (int)last).Select(i => (long)i), all.Select(e => e.Serial));
    }

    [Fact]
    public async Task A_stop_ends_a_watch_with_its_reason()
    {
        using var channel = LimitedChannel.For(Bench.Service.Grpc);
        using var watch = new LedgerService.LedgerServiceClient(channel).Watch(new());
        await Begun(watch);

        var stop = Bench.Stop();

        await Refused(watch.ResponseStream.MoveNext(CancellationToken.None), StatusCode.Unavailable, "SHUTTING_DOWN");
        Assert.Equal(0, await stop);
    }

    [Fact]
    public async Task A_stop_is_clean_beside_a_watch_that_is_not_read()
    {
        using var channel = LimitedChannel.For(Bench.Service.Grpc);
        using var watch = new LedgerService.LedgerServiceClient(channel).Watch(new() { After = 0 });
        await Begun(watch);
        await Task.WhenAll(Enumerable.Range(0, 1000).Select(i => Locate($"{i}")));

        Assert.Equal(0, await Bench.Stop());
        await Assert.ThrowsAsync<RpcException>(() => Take(watch, int.MaxValue));
    }

    [Fact]
    public async Task All_clients_together_have_at_most_64_watches()
    {
        await using var bench = await Bench.Start(configure: s =>
        {
            s["Clients"]![0]!["Watches"] = 63;
            s["Clients"]!.AsArray().Insert(0, JsonNode.Parse("""{ "Name": "other", "From": [ "127.0.0.7" ], "Roles": [ "review" ] }"""));
        });
        using var other = Other(bench);
        var ledger = new LedgerService.LedgerServiceClient(bench.Channel);
        var watches = Enumerable.Range(0, 63).Select(_ => ledger.Watch(new() { After = 0 }))
            .Append(new LedgerService.LedgerServiceClient(other).Watch(new() { After = 0 })).ToList();
        foreach (var watch in watches)
        {
            await Take(watch, 1);
        }

        using var more = new LedgerService.LedgerServiceClient(other).Watch(new() { After = 0 });
        await Refused(more.ResponseStream.MoveNext(CancellationToken.None), StatusCode.ResourceExhausted, "TOO_BUSY");
        watches.ForEach(w => w.Dispose());
    }

    [Fact]
    public async Task A_client_has_at_most_8_watches_and_a_cancelled_one_makes_room()
    {
        using var gone = new CancellationTokenSource();
        var watches = Enumerable.Range(0, 8).Select(_ => Ledger.Watch(new() { After = 0 }, cancellationToken: gone.Token)).ToList();
        foreach (var watch in watches)
        {
            await Take(watch, 1);
        }

        using (var more = Ledger.Watch(new() { After = 0 }))
        {
            await Refused(more.ResponseStream.MoveNext(CancellationToken.None), StatusCode.ResourceExhausted, "TOO_BUSY");
        }

        await gone.CancelAsync();
        watches.ForEach(w => w.Dispose());
        await Deadline.Until(Accepted, "the acceptance of another watch");
    }

    [Fact]
    public async Task Without_the_role_or_from_an_impossible_serial_a_watch_is_refused()
    {
        using var negative = Ledger.Watch(new() { After = -1 });
        await Refused(negative.ResponseStream.MoveNext(CancellationToken.None), StatusCode.InvalidArgument, "VALUE_MALFORMED");

        await using var bench = await Bench.Start(configure: s => s["Clients"]![0]!["Roles"] = new JsonArray("locate", "measure", "calibrate"));
        var ledger = new LedgerService.LedgerServiceClient(bench.Channel);
        using var watch = ledger.Watch(new() { After = 0 });
        await Refused(watch.ResponseStream.MoveNext(CancellationToken.None), StatusCode.PermissionDenied, "NOT_PERMITTED");
        await Refused(ledger.GetEntryAsync(new() { Serial = 1 }), StatusCode.PermissionDenied, "NOT_PERMITTED");
    }

    /// <summary>A channel from another address.</summary>
    private static LimitedChannel Other(Bench bench) => LimitedChannel.For(bench.Service.Grpc, new()
    {
        DisposeHttpClient = true,
        HttpHandler = new SocketsHttpHandler
        {
            ConnectCallback = async (context, token) =>
            {
                var socket = new Socket(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp);
                socket.Bind(new IPEndPoint(IPAddress.Parse("127.0.0.7"), 0));
                await socket.ConnectAsync(context.DnsEndPoint.Host, context.DnsEndPoint.Port, token);
                return new NetworkStream(socket, ownsSocket: true);
            },
        },
    });

    private Task Locate(string tag) => Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924, Tag = tag }).ResponseAsync;

    private static Task Begun(AsyncServerStreamingCall<WatchResponse> watch) => watch.ResponseHeadersAsync.Within("the start of the watch");

    private static async Task<List<Entry>> Take(AsyncServerStreamingCall<WatchResponse> watch, int count)
    {
        var entries = new List<Entry>();
        while (entries.Count < count && await watch.ResponseStream.MoveNext(CancellationToken.None))
        {
            entries.Add(watch.ResponseStream.Current.Entry);
        }

        return entries;
    }

    private async Task<bool> Accepted()
    {
        using var watch = Ledger.Watch(new() { After = 0 });
        try
        {
            return await watch.ResponseStream.MoveNext(CancellationToken.None);
        }
        catch (RpcException e) when (e.StatusCode == StatusCode.ResourceExhausted)
        {
            return false;
        }
    }
}
