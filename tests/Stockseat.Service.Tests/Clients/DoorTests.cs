using System.Net;
using Grpc.Core;
using Stockseat.Answers.Reasons;
using Stockseat.Service.Clients;
using Stockseat.Service.Tests.Support;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Clients;

/// <summary>Who is let in, and how many connections.</summary>
public sealed class DoorTests : IDisposable
{
    private static readonly Client Robot = Bench.Client with { Name = "robot", From = [IPNetwork.Parse("10.0.0.7/32")], Connections = 2 };
    private static readonly Client Cell = Bench.Client with { Name = "cell", From = [IPNetwork.Parse("10.0.0.0/24"), IPNetwork.Parse("fd00::/8")] };

    private readonly Door _door = Make(new() { Connections = 4 });

    public void Dispose() => _door.Dispose();

    [Theory]
    [InlineData("10.0.0.7", "robot")]
    [InlineData("::ffff:10.0.0.7", "robot")]
    [InlineData("10.0.0.8", "cell")]
    [InlineData("::ffff:10.0.0.255", "cell")]
    [InlineData("fd12::1", "cell")]
    [InlineData("10.0.1.0", null)]
    [InlineData("::1", null)]
    [InlineData("::ffff:10.0.1.0", null)]
    public void The_first_client_entry_that_contains_the_address_counts(string address, string? name) =>
        Assert.Equal(name, _door.Enter(new(IPAddress.Parse(address), 5)).Visit?.Client.Name);

    [Fact]
    public void A_client_s_connections_are_limited_and_one_that_ends_makes_room()
    {
        var (first, _) = Enter("10.0.0.7");
        Enter("10.0.0.7");

        Assert.Equal((Reason.TooBusy, TurnedAway.ClientConnections), (Enter("10.0.0.7").Refusal!.Reason, Assert.Single(_door.Counts).Why));
        first!.Dispose();
        first.Dispose();
        Assert.NotNull(Enter("10.0.0.7").Visit);
        Assert.Null(Enter("10.0.0.7").Visit);
    }

    [Fact]
    public void All_connections_together_are_limited()
    {
        for (var i = 0; i < 4; i++)
        {
            Assert.NotNull(Enter("10.0.0.8").Visit);
        }

        var refusal = Enter("10.0.0.7").Refusal!;
        Assert.Equal((Reason.TooBusy, "there are 4 connections, the most that there may be; close some; ask again in a "
            + "second"), (refusal.Reason, refusal.Text));
        Assert.Equal((TurnedAway.Connections, 1), Assert.Single(_door.Counts));
    }

    [Fact]
    public void A_client_s_calls_under_way_are_limited_and_one_that_ends_makes_room()
    {
        for (var i = 0; i < 2048; i++)
        {
            Assert.Null(_door.Begin(Robot));
        }

        Assert.Equal((Reason.TooBusy, TurnedAway.TooBusy), (_door.Begin(Robot)!.Reason, Assert.Single(_door.Counts).Why));
        Assert.Null(_door.Begin(Cell));
        _door.End(Robot);
        Assert.Null(_door.Begin(Robot));
        Assert.NotNull(_door.Begin(Robot));
    }

    [Fact]
    public async Task Over_sockets_one_connection_too_many_gets_one_line_and_is_closed()
    {
        await using var bench = await Bench.Start(configure: s => s["Clients"]![0]!["Connections"] = 2);
        using var first = await bench.Line();
        using var second = await bench.Line();
        await first.Ask("hello");
        await second.Ask("hello");

        using (var third = await bench.Line())
        {
            Assert.StartsWith("refused class=service reason=too-busy text=\"client bench has 2 connections", await third.Read(), StringComparison.Ordinal);
            Assert.Null(await third.Read());
        }

        Assert.Contains(" turnedaway=1 ", await first.Ask("status"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_known_client_that_is_turned_away_gets_the_refusal_in_its_own_form()
    {
        await using var bench = await Bench.Start(configure: s =>
        {
            s["Clients"]![0]!["Connections"] = 1;
            s["Clients"]![0]!["Form"] = "short";
        });
        using var first = await bench.Line();
        await first.Ask("hello");

        using var second = await bench.Line();

        Assert.Equal("refused - service too-busy", await second.Read());
    }

    [Fact]
    public async Task The_same_limits_apply_to_gRPC()
    {
        await using var bench = await Bench.Start(configure: s => s["Clients"]![0]!["Connections"] = 1);
        var lookup = new LookupService.LookupServiceClient(bench.Channel);
        await lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924 });

        using var line = await bench.Line();

        Assert.StartsWith("refused class=service reason=too-busy ", await line.Read(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Each_gRPC_call_counts_towards_the_rate()
    {
        await using var bench = await Bench.Start(configure: s => s["Clients"]![0]!["Rate"] = 1);
        var lookup = new LookupService.LookupServiceClient(bench.Channel);
        var request = new LocateRequest { Fixture = "pinbed-1", DiameterMetres = 0.0924 };

        var calls = Enumerable.Range(0, 20).Select(_ => lookup.LocateAsync(request).ResponseAsync).ToList();
        var refused = 0;
        foreach (var call in calls)
        {
            try
            {
                await call;
            }
            catch (RpcException e) when (e.StatusCode == StatusCode.ResourceExhausted)
            {
                refused++;
            }
        }

        Assert.InRange(refused, 1, 19);
    }

    [Fact]
    public async Task A_listener_on_all_addresses_recognises_an_IPv4_caller_in_mapped_form()
    {
        await using var bench = await Bench.Start(configure: s => s["Listen"]!["Line"] = "[::]:0");
        using var line = await LineClient.Connect(new(IPAddress.Loopback, bench.Service.Line.Port));

        Assert.StartsWith("ok ", await line.Ask("locate fixture=pinbed-1 diameter=92.40mm"), StringComparison.Ordinal);
        var entry = Assert.Single(new LedgerService.LedgerServiceClient(bench.Channel).ListEntries(new() { After = -1 }).Entries);
        Assert.Contains("\"address\":\"127.0.0.1:", entry.Body, StringComparison.Ordinal);
    }

    private static Door Make(DoorLimits limits) => new(limits, new([Robot, Cell]));

    private (Visit? Visit, Refusal? Refusal) Enter(string address) => _door.Enter(new(IPAddress.Parse(address), 5));
}
