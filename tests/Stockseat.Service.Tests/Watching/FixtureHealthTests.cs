using Grpc.Core;
using Grpc.Health.V1;
using Stockseat.V1;
using Status = Grpc.Health.V1.HealthCheckResponse.Types.ServingStatus;

namespace Stockseat.Service.Tests.Watching;

public sealed class FixtureHealthTests : IAsyncLifetime
{
    private Watched _watched = null!;

    private global::Grpc.Health.V1.Health.HealthClient Client => new(_watched.Bench.Channel);

    public async ValueTask InitializeAsync() => _watched = await Watched.Start(prepare: b => b.Write("fixtures/broken-9/r0001.json", "{"));

    public ValueTask DisposeAsync() => _watched.DisposeAsync();

    [Fact]
    public async Task Each_fixture_is_reported_healthy_or_not_by_its_name()
    {
        Assert.Equal((Status.Serving, Status.NotServing, Status.Serving),
            (await Of("pinbed-1"), await Of("broken-9"), (await Client.CheckAsync(new())).Status));
        await Assert.ThrowsAsync<RpcException>(() => Of("nowhere-9"));
    }

    [Fact]
    public async Task A_hold_and_its_release_show()
    {
        await _watched.Fixtures.HoldAsync(new() { Fixture = "pinbed-1", By = "setter", Why = "pins" });
        await Becomes("pinbed-1", Status.NotServing);
        Assert.Equal(Status.Serving, await Of("rollers-3"));

        await _watched.Fixtures.ReleaseAsync(new() { Fixture = "pinbed-1", By = "setter", Why = "done" });
        await Becomes("pinbed-1", Status.Serving);
    }

    [Fact]
    public async Task A_changed_file_a_withdrawal_and_an_adoption_show()
    {
        _watched.Bench.WritePins(3, edits: ("\"spacing\": \"60 mm\"", "\"spacing\": \"61 mm\""));
        await Becomes("pinbed-1", Status.NotServing);
        _watched.Bench.WritePins(4);
        await _watched.UntilState(4, RevisionState.Waiting);
        await _watched.Fixtures.AdoptAsync(new() { Fixture = "pinbed-1", Revision = 4, By = "setter", Why = "new values" });
        await Becomes("pinbed-1", Status.Serving);

        Directory.Delete(_watched.Folder(), recursive: true);
        await Becomes("pinbed-1", Status.NotServing);
    }

    [Fact]
    public async Task A_fixture_that_comes_and_goes_has_a_health_name_while_it_exists()
    {
        Directory.CreateDirectory(_watched.Folder("pinbed-7"));
        await _watched.Until(async () => await Known("pinbed-7"), "a health name for the new fixture");
        Assert.Equal(Status.NotServing, await Of("pinbed-7"));

        Directory.Delete(_watched.Folder("pinbed-7"));
        await _watched.Until(async () => !await Known("pinbed-7"), "the end of the fixture's health name");
    }

    [Fact]
    public async Task A_miss_that_refuses_asks_shows_and_does_not_count_as_a_change_of_the_folder()
    {
        await using var watched = await Watched.Start(s => s["RefuseAfterMiss"] = true);
        var client = new global::Grpc.Health.V1.Health.HealthClient(watched.Bench.Channel);
        await watched.Fixtures.RecheckAsync(new() { Fixture = "pinbed-1", By = "setter", MasterMetres = 0.08,
            FoundMetres = new() { X = 0.4123, Y = -0.203, Z = 0.118 } });
        await watched.Until(async () => (await client.CheckAsync(new() { Service = "fixture/pinbed-1" })).Status == Status.NotServing, "it shows");

        Directory.Delete(watched.Folder(), recursive: true);
        await watched.Logged("fixture-withdrawn");
        Assert.DoesNotContain(watched.Log, l => l.Contains("no longer refused", StringComparison.Ordinal));
    }

    private async Task<Status> Of(string fixture) => (await Client.CheckAsync(new() { Service = $"fixture/{fixture}" })).Status;

    private Task Becomes(string fixture, Status status) => _watched.Until(async () => await Of(fixture) == status, $"{fixture} {status}");

    private async Task<bool> Known(string fixture)
    {
        try
        {
            await Of(fixture);
            return true;
        }
        catch (RpcException e) when (e.StatusCode == StatusCode.NotFound)
        {
            return false;
        }
    }
}
