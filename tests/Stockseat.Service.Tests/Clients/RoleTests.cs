using System.Globalization;
using System.Text.Json.Nodes;
using Grpc.Core;
using Stockseat.Service.Tests.Support;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Clients;

/// <summary>What a client may do, by its roles and fixtures: anything else is refused, and recorded.</summary>
public class RoleTests
{
    private const string Push = "measured fixture=pinbed-1 diameter=92.40mm";
    private const string Ask = "locate fixture=pinbed-1 diameter=92.40mm";

    public static TheoryData<string, string, bool> Lines => new()
    {
        { "locate", Ask, true },
        { "measure", Ask, false },
        { "review", Ask, false },
        { "calibrate", Ask, false },
        { "locate", Push, false },
        { "measure", Push, true },
        { "calibrate", Push, false },
        { "locate", "emptied fixture=pinbed-1", true },
        { "measure", "emptied fixture=pinbed-1", true },
        { "review", "emptied fixture=pinbed-1", false },
        { "measure", "confirm serial=5", false },
        { "measure", "done serial=5", false },
        { "measure", "still serial=5", false },
        { "locate", "loaded fixture=pinbed-1", true },
        { "measure", "loaded fixture=pinbed-1", true },
        { "review", "loaded fixture=pinbed-1", false },
        { "calibrate", "next fixture=pinbed-1", false },
        { "measure", "dropped serial=5", false },
        { "review", "status fixture=pinbed-1", true },
        { "review", "hello", true },
    };

    [Theory]
    [MemberData(nameof(Lines))]
    public async Task A_line_needs_its_role(string role, string request, bool permitted)
    {
        await using var bench = await Bench.Start(configure: Roles(role));
        using var line = await bench.Line();

        Assert.StartsWith(permitted ? "ok " : "refused class=request reason=not-permitted ", await line.Ask(request), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_refusal_because_of_a_missing_role_names_the_role_and_has_its_entry()
    {
        await using var bench = await Bench.Start(configure: s => Two(s)["Roles"] = new JsonArray("locate"));
        using var robot = await LineClient.Connect(bench.Service.Line, "127.0.0.7");

        var reply = await robot.Ask(Push + " tag=7");
        var entries = new LedgerService.LedgerServiceClient(bench.Channel).ListEntries(new() { After = -1 }).Entries;

        Assert.Equal(
            "refused tag=7 class=request reason=not-permitted text=\"measured needs the role measure, which client robot does not have; if this client may "
                + "ask, change "
            + "Clients in the configuration\"", reply);
        var entry = Assert.Single(entries);
        Assert.Equal(("refusal", "robot", "7"), (entry.Kind, entry.Client, entry.Tag));
        Assert.Contains("\"diameter\":0.0924", entry.Body, StringComparison.Ordinal);
        Assert.Contains("\"address\":\"127.0.0.7:", entry.Body, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_client_that_may_not_push_can_not_void_the_measurement_either_even_across_a_restart()
    {
        await using var bench = await Bench.Start(configure: s => Two(s)["Roles"] = new JsonArray("locate"));
        using (var gauge = await bench.Line())
        using (var robot = await LineClient.Connect(bench.Service.Line, "127.0.0.7"))
        {
            Assert.StartsWith("ok ", await gauge.Ask(Push), StringComparison.Ordinal);
            Assert.StartsWith("refused class=request reason=not-permitted ", await robot.Ask("measured fixture=pinbed-1 diameter=40mm"),
                StringComparison.Ordinal);
            Assert.StartsWith("ok ", await robot.Ask("locate fixture=pinbed-1"), StringComparison.Ordinal);
        }

        await bench.Restart();
        using var again = await LineClient.Connect(bench.Service.Line, "127.0.0.7");
        Assert.StartsWith("ok ", await again.Ask("locate fixture=pinbed-1"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Another_client_s_fixture_is_neither_served_nor_shown_nor_confirmed()
    {
        await using var bench = await Bench.Start(configure: s => Two(s)["Fixtures"] = new JsonArray("rollers-3"));
        using var robot = await LineClient.Connect(bench.Service.Line, "127.0.0.7");
        using var other = await bench.Line();
        var serial = LineClient.Value(await other.Ask(Ask), "serial");

        Assert.StartsWith("refused class=request reason=not-permitted text=\"client robot may not use fixture pinbed-1;", await robot.Ask(Ask),
            StringComparison.Ordinal);
        Assert.StartsWith("refused class=request reason=not-permitted ", await robot.Ask("status fixture=pinbed-1"), StringComparison.Ordinal);
        Assert.StartsWith("refused class=request reason=not-permitted ", await robot.Ask($"confirm serial={serial} {BedPick.ReadBack}"),
            StringComparison.Ordinal);
        Assert.EndsWith(" names=rollers-3", await robot.Ask("status"), StringComparison.Ordinal);
        Assert.Contains(" first=yes ", await other.Ask(Ask), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("demo", true)]
    [InlineData("hall-2", false)]
    [InlineData(null, false)]
    public async Task An_answer_is_confirmed_by_the_client_that_was_served_or_by_its_cell(string? cell, bool may)
    {
        await using var bench = await Bench.Start(configure: s =>
        {
            var robot = Two(s);
            if (cell is not null)
            {
                robot["Cell"] = cell;
            }
        });
        using var robot = await LineClient.Connect(bench.Service.Line, "127.0.0.7");
        using var other = await bench.Line(); // belongs to the cell demo
        var (own, foreign) = (LineClient.Value(await robot.Ask(Ask), "serial"), LineClient.Value(await other.Ask(Ask), "serial"));

        var confirmed = await robot.Ask($"confirm serial={foreign} {BedPick.ReadBack}");
        var call = new LookupService.LookupServiceClient(bench.Channel).ConfirmAsync(new() { Serial = long.Parse(own!, CultureInfo.InvariantCulture) });

        await Permits(may, call);
        Assert.Equal(may, confirmed.StartsWith("ok ", StringComparison.Ordinal));
        Assert.Equal(!may, confirmed.StartsWith($"refused class=request reason=not-permitted text=\"answer {foreign} was served to client bench of cell demo, ",
            StringComparison.Ordinal));
        Assert.StartsWith("ok ", await robot.Ask($"confirm serial={own}"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("locate")]
    [InlineData("measure")]
    [InlineData("review")]
    [InlineData("calibrate")]
    public async Task A_call_needs_its_role(string role)
    {
        await using var bench = await Bench.Start(configure: Roles(role));
        var channel = bench.Channel;
        var (lookup, gauge) = (new LookupService.LookupServiceClient(channel), new GaugeService.GaugeServiceClient(channel));
        var (fixtures, ledger) = (new FixtureService.FixtureServiceClient(channel), new LedgerService.LedgerServiceClient(channel));

        await Permits(role is "locate", lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924 }));
        await Permits(role is "locate", lookup.ConfirmAsync(new() { Serial = 5 }));
        await Permits(role is "measure", gauge.RecordAsync(new() { Fixture = "pinbed-1", ReadingsMetres = { 0.0924 } }));
        await Permits(role is "locate" or "measure", gauge.EmptiedAsync(new() { Fixture = "pinbed-1" }));
        await Permits(role is "calibrate", gauge.DescribeLotAsync(new() { Lot = "D4" }));
        await Permits(true, gauge.ListLotsAsync(new()));
        await Permits(role is "calibrate", fixtures.AdoptAsync(new() { Fixture = "pinbed-1", Revision = 3, By = "setter", Why = "test" }));
        await Permits(true, fixtures.ListFixturesAsync(new()));
        await Permits(true, fixtures.GetRevisionAsync(new() { Fixture = "pinbed-1" }));
        await Permits(role is "review", ledger.ListEntriesAsync(new()));
        await Permits(role is "review", ledger.VerifyAsync(new()));
    }

    /// <summary>Permitted means answered, or refused for any other reason.</summary>
    private static async Task Permits<T>(bool permitted, AsyncUnaryCall<T> call)
    {
        var status = StatusCode.OK;
        try
        {
            await call;
        }
        catch (RpcException e)
        {
            status = e.StatusCode;
        }

        Assert.Equal((typeof(T).Name, permitted), (typeof(T).Name, status != StatusCode.PermissionDenied));
    }

    private static Action<JsonObject> Roles(string role) => s => s["Clients"]![0]!["Roles"] = new JsonArray(role);

    /// <summary>A second client, robot at 127.0.0.7, listed before the client that may do everything.</summary>
    private static JsonNode Two(JsonObject settings)
    {
        var robot = JsonNode.Parse("""{ "Name": "robot", "From": [ "127.0.0.7" ], "Roles": [ "locate", "measure" ] }""")!;
        settings["Clients"]!.AsArray().Insert(0, robot);
        return robot;
    }
}
