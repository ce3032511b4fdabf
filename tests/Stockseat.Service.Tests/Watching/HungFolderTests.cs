using System.Text.Json.Nodes;
using Grpc.Core;
using Stockseat.Service.Tests.Support;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Watching;

/// <summary>A whole service beside a share that hangs. The hang is real, so these tests wait for the service's limit by the real clock.</summary>
public sealed class HungFolderTests : IAsyncLifetime
{
    private HangingFolders _folders = null!;
    private Watched _watched = null!;

    public async ValueTask InitializeAsync() => _watched = await Watched.Start(folders: f => _folders = new(f));

    public async ValueTask DisposeAsync()
    {
        _folders.Return();
        await _watched.DisposeAsync();
        _folders.Dispose();
    }

    [Fact]
    public async Task A_start_beside_a_hung_folder_answers_from_the_ledger_and_for_all_other_fixtures()
    {
        await _watched.Bench.Restart(() => _folders.Hang("pinbed-1"));
        Assert.Equal(1, _folders.Hanging);
        foreach (var fixture in new[] { "pinbed-1", "rollers-3" })
        {
            Assert.True((await new LookupService.LookupServiceClient(_watched.Bench.Channel).LocateAsync(new() { Fixture = fixture,
                DiameterMetres = 0.08 })).Serial > 0);
        }

        Assert.Contains("the folder of pinbed-1 could not be read within 3 s", Assert.Single((await _watched.Shown())!.Faults), StringComparison.Ordinal);
        Assert.Equal("", (await _watched.Shown())!.Refused);
        Assert.Contains(_watched.Log, l => l.Contains("the folder of pinbed-1 could not be read within 3 s", StringComparison.Ordinal));

        _folders.Return();
        await _watched.Until(async () => (await _watched.Shown())!.Faults.Count == 0, "the recovery of the folder");
        Assert.Equal(RevisionState.InForce, (await _watched.List())[2].State);
    }

    [Fact]
    public async Task A_hung_folder_does_not_stop_other_adoptions_a_hold_or_a_stop_and_is_not_adopted_from()
    {
        _folders.Hang("pinbed-1");
        await _watched.Logged("the folder of pinbed-1 could not be read within 3 s");
        _watched.Bench.WritePins(4);
        var e = await Assert.ThrowsAsync<RpcException>(() => Adopt("pinbed-1", 4));
        Assert.Equal(StatusCode.FailedPrecondition, e.StatusCode);
        Assert.Contains("could not be read within 3 s; what was read before stays in use; check the disk or the share that it is on; then adopt revision 4",
            e.Status.Detail, StringComparison.Ordinal);
        await Assert.ThrowsAsync<RpcException>(() => Adopt("pinbed-1", 3));
        Assert.Equal(1, _folders.Hanging); // Neither the watch nor an adoption starts a second thread there.

        await Adopt("rollers-3", 2);
        await _watched.Fixtures.HoldAsync(new() { Fixture = "pinbed-1", By = "setter", Why = "the share is away" });
        File.WriteAllText(_watched.Path(3, "rollers-3"), "{");
        await _watched.UntilState(3, RevisionState.Faulty, "rollers-3");
        Assert.Equal((0, 1), (await _watched.Bench.Stop(), _folders.Hanging));
    }

    [Fact]
    public async Task A_folder_is_read_only_for_a_client_that_may_adopt()
    {
        await using var watched = await Watched.Start(s => s["Clients"]![0]!["Roles"] = new JsonArray("locate", "measure", "review"),
            folders: f => _folders = new(f));
        var reads = _folders.Reads;
        var e = await Assert.ThrowsAsync<RpcException>(async () =>
            await watched.Fixtures.AdoptAsync(new() { Fixture = "pinbed-1", Revision = 3, By = "setter", Why = "why not" }));

        Assert.Equal((StatusCode.PermissionDenied, reads), (e.StatusCode, _folders.Reads));
    }

    [Fact]
    public async Task A_pipe_among_the_revisions_is_a_fault_and_stops_nothing()
    {
        await NamedPipe.Make(_watched.Path(4));
        await _watched.UntilState(4, RevisionState.Faulty);
        Assert.Contains("r0004.json: is not a regular file", Assert.Single((await _watched.List())[3].Faults), StringComparison.Ordinal);
        var e = await Assert.ThrowsAsync<RpcException>(() => Adopt("pinbed-1", 4));
        Assert.Contains($"{_watched.Path(4)}: is not a regular file", e.Status.Detail, StringComparison.Ordinal);

        await _watched.Bench.Restart();
        Assert.Equal(RevisionState.Faulty, (await _watched.List())[3].State);
    }

    private Task Adopt(string fixture, int number) =>
        _watched.Fixtures.AdoptAsync(new() { Fixture = fixture, Revision = number, By = "setter", Why = "a test" }).ResponseAsync;
}
