using System.Text.Json.Nodes;
using Grpc.Health.V1;
using Npgsql;
using Stockseat.Plant.Connecting;
using Stockseat.Plant.Schema;
using Stockseat.Service.Tests.Support;
using Stockseat.V1;
using Status = Grpc.Health.V1.HealthCheckResponse.Types.ServingStatus;

namespace Stockseat.Service.Tests.Forwarding;

/// <summary>What a running service tells about the plant store.</summary>
public sealed class RunningServiceTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("ss-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task Answers_go_on_without_the_store_and_list_and_health_tell_when_it_has_every_entry()
    {
        Assert.SkipWhen(PostgreSql.Missing is not null, PostgreSql.Missing ?? "");
        if (OperatingSystem.IsLinux())
        {
            File.SetUnixFileMode(_folder, (UnixFileMode)0b111_101_101);
        }

        await using var server = await PostgreSql.Start(_folder, default, "fsync=off");
        var connection = $"Host={server.Folder};Database=postgres;Username=postgres";
        await using var bench = await Bench.Start(configure: s => s["Plant"] = new JsonObject { ["Connection"] = connection });
        var fixtures = new FixtureService.FixtureServiceClient(bench.Channel);
        var health = new global::Grpc.Health.V1.Health.HealthClient(bench.Channel);
        await Deadline.Until(() => fixtures.ListFixtures(new()).Plant.Cause.Length > 0, "the service misses the tables");

        using (var line = await bench.Line())
        {
            Assert.StartsWith("ok ", await line.Ask("locate fixture=pinbed-1 diameter=92.4mm"), StringComparison.Ordinal);
        }

        var before = fixtures.ListFixtures(new());
        Assert.Contains("run stockseat plant prepare", before.Plant.Cause, StringComparison.Ordinal);
        Assert.Equal((false, 0, before.Serial), (before.Plant.Connected, before.Plant.Stored, before.Plant.Waiting));
        Assert.False(before.Plant.HasLagSeconds);
        Assert.Equal(Status.NotServing, health.Check(new() { Service = "plant" }).Status);
        Assert.Equal(Status.Serving, health.Check(new()).Status);

        await Preparation.Run(PlantAddress.Read(connection, null, out _)!, default);
        await Deadline.Until(() => fixtures.ListFixtures(new()).Plant.Stored == before.Serial, "the store has every entry");

        var after = fixtures.ListFixtures(new()).Plant;
        Assert.Equal((true, "", 0, 0, 0), (after.Connected, after.Cause, after.Waiting, after.LagSeconds, after.Faults.Count));
        await Deadline.Until(() => health.Check(new() { Service = "plant" }).Status == Status.Serving, "health says so");
        await using var rows = new NpgsqlConnection(server.Connection);
        await rows.OpenAsync();
        await using var count = new NpgsqlCommand("SELECT count(*) FROM stockseat.entry", rows);
        Assert.Equal(before.Serial, await count.ExecuteScalarAsync());
    }

    [Fact]
    public async Task Ledger_that_differs_from_the_store_is_seen_in_list_health_board_and_review_and_answers_go_on()
    {
        Assert.SkipWhen(PostgreSql.Missing is not null, PostgreSql.Missing ?? "");
        if (OperatingSystem.IsLinux())
        {
            File.SetUnixFileMode(_folder, (UnixFileMode)0b111_101_101);
        }

        await using var server = await PostgreSql.Start(_folder, default, "fsync=off");
        var connection = $"Host={server.Folder};Database=postgres;Username=postgres";
        await Preparation.Run(PlantAddress.Read(connection, null, out _)!, default);
        await using var bench = await Bench.Start(configure: s => s["Plant"] = new JsonObject { ["Connection"] = connection });
        var fixtures = new FixtureService.FixtureServiceClient(bench.Channel);
        var health = new global::Grpc.Health.V1.Health.HealthClient(bench.Channel);
        var ledger = new LedgerService.LedgerServiceClient(bench.Channel);
        using var page = new PageClient(bench.Service.Page!);
        using var line = await bench.Line();
        Assert.StartsWith("ok ", await line.Ask("locate fixture=pinbed-1 diameter=92.4mm"), StringComparison.Ordinal);
        await Deadline.Until(() => fixtures.ListFixtures(new()).Plant is { Connected: true, Waiting: 0 }, "the store has every entry");
        await Deadline.Until(() => health.Check(new() { Service = "plant" }).Status == Status.Serving, "health says so");
        var last = fixtures.ListFixtures(new()).Serial;
        Assert.Equal("", ledger.Review(new() { Serial = last }).PlantFault);
        Assert.Contains("reached; every entry is stored", await page.Page("/"), StringComparison.Ordinal);

        bench.Expected = "Alarm: a ledger is not sent to the plant store any more";
        await using (var rows = new NpgsqlConnection(server.Connection))
        {
            await rows.OpenAsync();
            await using var change = new NpgsqlCommand($"UPDATE stockseat.entry SET hash = sha256('other') WHERE serial = {last}", rows);
            Assert.Equal(1, await change.ExecuteNonQueryAsync());
        }

        Assert.StartsWith("ok ", await line.Ask("locate fixture=pinbed-1 diameter=92.4mm"), StringComparison.Ordinal);
        await Deadline.Until(() => fixtures.ListFixtures(new()).Plant.Faults.Count > 0, "the difference is found");

        Assert.Contains($"differs from the plant store from entry {last} on", fixtures.ListFixtures(new()).Plant.Faults[0], StringComparison.Ordinal);
        await Deadline.Until(() => health.Check(new() { Service = "plant" }).Status == Status.NotServing, "health says so");
        Assert.Equal(Status.Serving, health.Check(new()).Status);
        Assert.Contains("Plant store alarm", await page.Page("/"), StringComparison.Ordinal);
        var review = ledger.Review(new() { Serial = last });
        Assert.Single(bench.Log.Errors);
        Assert.Equal("ledger-not-whole", review.Findings[0].Rule);
        Assert.StartsWith("This ledger is not what the plant store has: ledger ", review.Findings[0].What, StringComparison.Ordinal);
        Assert.StartsWith("ok ", await line.Ask("locate fixture=pinbed-1 diameter=92.4mm"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Without_a_plant_store_nothing_is_told_of_one()
    {
        await using var bench = await Bench.Start();

        Assert.Null((await new FixtureService.FixtureServiceClient(bench.Channel).ListFixturesAsync(new())).Plant);
    }
}
