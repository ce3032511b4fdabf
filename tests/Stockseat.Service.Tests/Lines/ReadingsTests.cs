using System.Text.Json.Nodes;
using Stockseat.Service.Tests.Support;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Lines;

/// <summary>Several readings in one line.</summary>
public sealed class ReadingsTests
{
    [Fact]
    public async Task Several_readings_are_one_measurement_and_their_spread_is_given()
    {
        await using var bench = await Bench.Start();
        using var line = await bench.Line();

        var reply = await line.Ask("measured fixture=pinbed-1 diameters=92.40mm,92.41mm,0.09242m gauge=bench-2 lot=A1077 tag=7");
        var serial = LineClient.Value(reply, "serial");

        Assert.Equal($"ok tag=7 serial={serial} fixture=pinbed-1 diameter=0.092410 readings=3 spread=0.000020", reply);
        var body = Body(bench);
        Assert.Equal("[0.0924,0.09241,0.09242]", body["readings"]!.ToJsonString());
        Assert.Null(body["unit"]);
    }

    [Theory]
    [InlineData("diameters=92.40mm,92.41mm", "mm", "0.092405 readings=2 spread=0.000010")]
    [InlineData("diameters=\"92.40 mm,92.41mm\"", "mm", "0.092405 readings=2 spread=0.000010")]
    [InlineData("diameters=3.638in", "in", "0.092405")]
    [InlineData("diameter=3.638in", "in", "0.092405")]
    [InlineData("diameters=3.638in,92.41mm", null, "0.092408 readings=2 spread=0.000005")]
    public async Task The_unit_is_kept_when_all_readings_have_it(string readings, string? unit, string told)
    {
        await using var bench = await Bench.Start();
        using var line = await bench.Line();

        Assert.EndsWith($" diameter={told}", await line.Ask($"measured fixture=pinbed-1 {readings}"), StringComparison.Ordinal);
        Assert.Equal(unit, (string?)Body(bench)["unit"]);
    }

    [Fact]
    public async Task A_form_s_unit_applies_to_bare_readings_and_to_their_spread()
    {
        await using var bench = await Bench.Start(configure: s =>
        {
            s["Forms"] = JsonNode.Parse("""{ "named": { "Unit": "mm", "Decimals": 4, "BareUnit": "mm" } }""");
        });
        using var line = await bench.Line();

        Assert.EndsWith(" diameter=92.4050 unit=mm readings=2 spread=0.0100", await line.Ask("measured fixture=pinbed-1 diameters=92.40,92.41"),
            StringComparison.Ordinal);
        Assert.Equal("mm", (string?)Body(bench)["unit"]);
    }

    [Theory]
    [InlineData("92,40")] // a diameter with a decimal comma would become the mean of 92 and 40
    [InlineData("92,40,92,41")]
    [InlineData("92,40mm")]
    public async Task Bare_whole_numbers_are_refused_since_their_comma_may_be_a_decimal_mark(string readings)
    {
        await using var bench = await Bench.Start(configure: s =>
        {
            s["Forms"] = JsonNode.Parse("""{ "named": { "Unit": "mm", "Decimals": 4, "BareUnit": "mm" } }""");
        });
        using var line = await bench.Line();
        await line.Ask("hello");

        Assert.StartsWith("refused class=request reason=value-malformed ", await line.Ask($"measured fixture=pinbed-1 diameters={readings}"),
            StringComparison.Ordinal);
        Assert.StartsWith("ok ", await line.Ask("measured fixture=pinbed-1 diameters=92,92.1"), StringComparison.Ordinal);
        Assert.StartsWith("ok ", await line.Ask("measured fixture=pinbed-1 diameters=92"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Twenty_readings_are_accepted()
    {
        await using var bench = await Bench.Start();
        using var line = await bench.Line();

        Assert.EndsWith(" readings=20 spread=0.000000",
            await line.Ask($"measured fixture=pinbed-1 diameters={string.Join(',', Enumerable.Repeat("92.4mm", 20))}"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_reading_that_stands_out_is_named()
    {
        await using var bench = await Bench.Start();
        using var line = await bench.Line();

        Assert.Equal(
            "refused class=cell reason=readings-disagree text=\"3 readings spread by 0.300 mm; gauge bench-2 has an Agreement of 0.100 mm; reading 2, 92.70mm, "
                + "stands out; clean stock and gauge, and measure again\"",
            await line.Ask("measured fixture=pinbed-1 diameters=92.40mm,92.70mm,92.41mm gauge=bench-2"));
    }

    private static JsonNode Body(Bench bench) =>
        JsonNode.Parse(Assert.Single(new LedgerService.LedgerServiceClient(bench.Channel).ListEntries(new() { After = -1 }).Entries).Body)!;
}
