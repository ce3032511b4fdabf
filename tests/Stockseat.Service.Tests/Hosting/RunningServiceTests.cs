using Stockseat.Service.Tests.Support;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Hosting;

public sealed class RunningServiceTests
{
    [Fact]
    public async Task A_stop_succeeds_with_an_idle_connection_open_and_closes_it()
    {
        await using var bench = await Bench.Start();
        using var line = await bench.Line();
        await line.Ask("hello");

        Assert.Equal(0, await bench.Stop());
        Assert.Null(await line.Read());
    }

    [Fact]
    public async Task A_start_and_a_stop_are_in_the_ledger()
    {
        await using var bench = await Bench.Start();
        await bench.Restart();

        var kinds = (await Entries(bench)).Select(e => e.Kind);

        Assert.Equal(["service-started", "revision-adopted", "revision-adopted", "revision-adopted", "snapshot", "service-stopped", "service-started"], kinds);
    }

    [Fact]
    public async Task A_restart_keeps_the_revision_in_force_the_measurement_and_what_was_done()
    {
        await using var bench = await Bench.Start();
        string? measured;
        using (var line = await bench.Line())
        {
            measured = LineClient.Value(await line.Ask("measured fixture=pinbed-1 diameter=3.638in lot=A1077"), "serial");
            var answer = await line.Ask("locate fixture=pinbed-1");
            var read = string.Join(' ', ((string[])["bx", "by", "bz"]).Select(n => $"{n}={LineClient.Value(answer, n)}"));
            await line.Ask($"confirm serial={LineClient.Value(answer, "serial")} {read}");
            Assert.StartsWith("ok ", await line.Ask($"done serial={LineClient.Value(answer, "serial")}"), StringComparison.Ordinal);
        }

        bench.WritePins(4);
        await bench.Restart();

        using var again = await bench.Line();
        var reply = await again.Ask("locate fixture=pinbed-1 lot=A1077");
        Assert.Equal(("3", measured, "no"), (LineClient.Value(reply, "revision"), LineClient.Value(reply, "measurement"), LineClient.Value(reply, "first")));
        Assert.Equal("4", LineClient.Value(await again.Ask("status fixture=pinbed-1"), "waiting"));
    }

    [Fact]
    public async Task A_malformed_request_is_not_in_the_ledger()
    {
        await using var bench = await Bench.Start();
        using var line = await bench.Line();
        var before = (await Entries(bench)).Count;

        await line.Ask("hello"); // A client that begins with an unreadable line is disconnected.
        await line.Ask("locate fixture=pinbed-1 diameter=92.4");
        await line.Ask("locate fixture=pinbed-1 diameter=40mm tag=kept");

        var entry = Assert.Single((await Entries(bench)).Skip(before));
        Assert.Equal(("refusal", "kept"), (entry.Kind, entry.Tag));
    }

    [Fact]
    public async Task Without_first_adoption_nothing_is_answered_until_a_revision_is_adopted()
    {
        await using var bench = await Bench.Start(configure: s => s["FirstAdoption"] = "manual");
        using var line = await bench.Line();

        Assert.Contains("reason=calibration-unusable", await line.Ask("locate fixture=pinbed-1 diameter=92.4mm"), StringComparison.Ordinal);
        await new FixtureService.FixtureServiceClient(bench.Channel).AdoptAsync(new() { Fixture = "pinbed-1", Revision = 2, By = "setter", Why = "first" });
        Assert.Equal("2", LineClient.Value(await line.Ask("locate fixture=pinbed-1 diameter=92.4mm"), "revision"));
    }

    [Fact]
    public async Task Two_services_do_not_share_a_ledger()
    {
        await using var bench = await Bench.Start();

        await Assert.ThrowsAnyAsync<IOException>(() => bench.StartAnother());
    }

    private static async Task<IList<Entry>> Entries(Bench bench) =>
        (await new LedgerService.LedgerServiceClient(bench.Channel).ListEntriesAsync(new())).Entries;
}
