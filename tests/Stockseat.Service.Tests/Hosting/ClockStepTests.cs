using Stockseat.Service.Tests.Support;
using Stockseat.Tests.Support.Clocks;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Hosting;

/// <summary>Somebody sets the clock while a service runs.</summary>
public sealed class ClockStepTests
{
    private readonly SteppedTime _time = new();

    [Fact]
    public async Task A_controller_learns_that_the_clock_was_set_back_and_is_served_after_the_next_measurement()
    {
        await using var bench = await Bench.Start(_time);
        using var line = await bench.Line();
        var measured = LineClient.Value(await line.Ask("measured fixture=pinbed-1 diameter=92.4mm"), "serial");
        _time.Set(TimeSpan.FromHours(-1));

        Assert.Equal("0", LineClient.Value(await line.Ask("status fixture=pinbed-1"), "age"));
        var refused = await line.Ask("locate fixture=pinbed-1");
        var step = Assert.Single(await Steps(bench));

        Assert.StartsWith(
            $"refused class=cell reason=measurement-stale text=\"the clock was set back by 3600 s (entry {step.Serial}) after measurement {measured} of "
                + $"pinbed-1, ", refused, StringComparison.Ordinal);
        Assert.Equal($"ok fixture=pinbed-1 revision=3 measurement={measured} diameter=0.092400 unit=m proven=no answers=yes",
            await line.Ask("status fixture=pinbed-1"));
        var listed = await new FixtureService.FixtureServiceClient(bench.Channel).ListFixturesAsync(new());
        Assert.True(listed.Fixtures.Single(f => f.Fixture_ == "pinbed-1") is { HasMeasurement: true, HasMeasuredAgeSeconds: false });
        Assert.Contains("\"seconds\":-3600,\"before\":\"2026-11-25T08:00:00.000000Z\"", step.Body, StringComparison.Ordinal);
        Assert.StartsWith("ok ", await line.Ask("locate fixture=pinbed-1 diameter=92.4mm"), StringComparison.Ordinal);

        await line.Ask("measured fixture=pinbed-1 diameter=92.4mm");
        Assert.Equal("0", LineClient.Value(await line.Ask("locate fixture=pinbed-1"), "age"));
        Assert.Contains(" age=0 ", await line.Ask("status fixture=pinbed-1"), StringComparison.Ordinal);
        Assert.Single(await Steps(bench));
    }

    [Fact]
    public async Task A_service_that_starts_behind_its_last_entry_uses_no_measurement_from_before()
    {
        await using var bench = await Bench.Start(_time);
        using (var line = await bench.Line())
        {
            await line.Ask("measured fixture=pinbed-1 diameter=92.4mm");
        }

        await bench.Restart(() => _time.Set(TimeSpan.FromMinutes(-10)));

        using var again = await bench.Line();
        Assert.StartsWith("refused class=cell reason=measurement-stale text=\"at a start the clock was 600 s behind ",
            await again.Ask("locate fixture=pinbed-1"), StringComparison.Ordinal);
        Assert.Contains("\"atStart\":true", Assert.Single(await Steps(bench)).Body, StringComparison.Ordinal);
    }

    private static async Task<IReadOnlyList<Entry>> Steps(Bench bench) =>
        (await new LedgerService.LedgerServiceClient(bench.Channel).ListEntriesAsync(new() { Kind = "clock-step", PageSize = 100 })).Entries;
}
