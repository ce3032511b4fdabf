using System.Text.Json.Nodes;
using Stockseat.Service.Tests.Support;
using Stockseat.Tests.Support;

namespace Stockseat.Service.Tests.Clients;

/// <summary>What a client's entry in the configuration requires, its asks have to say.</summary>
public sealed class RequireTests
{
    [Theory]
    [InlineData("lot", "locate fixture=pinbed-1 diameter=92.4mm", "locate fixture=pinbed-1 diameter=92.4mm lot=A1077", "key-missing")]
    [InlineData("lot", "measured fixture=pinbed-1 diameter=92.4mm", "measured fixture=pinbed-1 diameter=92.4mm lot=A1077", "key-missing")]
    [InlineData("gauge", "measured fixture=pinbed-1 diameter=92.4mm", "measured fixture=pinbed-1 diameter=92.4mm gauge=bench-2", "key-missing")]
    [InlineData("measured", "locate fixture=pinbed-1 diameter=92.4mm", "locate fixture=pinbed-1 diameter=91mm purpose=place", "not-measured")]
    [InlineData("tag", "locate fixture=pinbed-1 diameter=92.4mm", "locate fixture=pinbed-1 diameter=92.4mm tag=1", "key-missing")]
    public async Task What_is_left_out_is_refused(string required, string without, string with, string reason)
    {
        await using var bench = await Start(required);
        using var line = await bench.Line();

        var refused = await line.Ask(without);
        Assert.Equal(reason, LineClient.Value(refused, "reason"));
        Assert.Contains("configuration of this client requires", refused, StringComparison.Ordinal);
        Assert.StartsWith("ok ", await line.Ask(with), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_confirmation_without_numbers_is_refused_where_reading_back_is_required()
    {
        await using var bench = await Start("readback");
        using var line = await bench.Line();
        var serial = LineClient.Value(await line.Ask("locate fixture=pinbed-1 diameter=92.40mm"), "serial");

        Assert.Equal("key-missing", LineClient.Value(await line.Ask($"confirm serial={serial}"), "reason"));
        Assert.StartsWith("ok ", await line.Ask($"confirm serial={serial} {BedPick.ReadBack}"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_measured_pick_is_answered_where_it_is_required()
    {
        await using var bench = await Start("measured");
        using var line = await bench.Line();
        await line.Ask("measured fixture=pinbed-1 diameter=92.4mm");

        Assert.StartsWith("ok ", await line.Ask("locate fixture=pinbed-1"), StringComparison.Ordinal);
    }

    private static Task<Bench> Start(string required) => Bench.Start(configure: s => s["Clients"]![0]!["Require"] = new JsonArray(required));
}
