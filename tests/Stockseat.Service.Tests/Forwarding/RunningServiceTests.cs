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
    public async Task Without_a_plant_store_nothing_is_told_of_one()
    {
        await using var bench = await Bench.Start();

        Assert.Null((await new FixtureService.FixtureServiceClient(bench.Channel).ListFixturesAsync(new())).Plant);
    }
}
