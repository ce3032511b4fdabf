using System.Text.Json.Nodes;
using Grpc.Core;
using Stockseat.Service.Tests.Support;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Grpc;

public sealed class RevisionListTests : GrpcCase
{
    [Fact]
    public async Task Each_revision_is_listed_with_its_state()
    {
        Bench.WritePins(4);
        Bench.WritePins(5, edits: ("\"spacing\": \"60 mm\"", "\"spacing\": \"60\""));
        await ReadFolder();
        var before = await List();

        Assert.Equal([1, 2, 3, 4, 5], before.Select(r => r.Revision));
        Assert.Equal([RevisionState.Older, RevisionState.Older, RevisionState.InForce, RevisionState.Waiting, RevisionState.Faulty],
            before.Select(r => r.State));
        Assert.Equal([false, false, true, false, false], before.Select(r => r.Adopted));
        Assert.Equal((await Fixtures.GetRevisionAsync(new() { Fixture = "pinbed-1" })).Digest, before[2].Digest);
        Assert.Equal("revision-adopted", (await Ledger.GetEntryAsync(new() { Serial = before[2].AdoptedBy })).Entry.Kind);
        Assert.Contains("nest.pins.spacing", Assert.Single(before[4].Faults), StringComparison.Ordinal);
        Assert.False(before[3].HasAdoptedBy);

        var adopted = await Fixtures.AdoptAsync(new() { Fixture = "pinbed-1", Revision = 4, By = "setter", Why = "new pins" });
        var after = await List();
        Assert.Equal([RevisionState.AdoptedBefore, RevisionState.InForce], after.Skip(2).Take(2).Select(r => r.State));
        Assert.Equal((adopted.Serial, adopted.Digest), (after[3].AdoptedBy, after[3].AdoptedDigest));
    }

    [Fact]
    public async Task A_changed_file_shows_both_digests_and_a_broken_or_missing_file_does_not_stop_service()
    {
        var digest = (await Fixtures.GetRevisionAsync(new() { Fixture = "pinbed-1" })).Digest;
        Bench.WritePins(3, edits: ("\"spacing\": \"60 mm\"", "\"spacing\": \"61 mm\""));
        await ReadFolder();
        var changed = (await List())[2];
        Assert.Equal((RevisionState.Changed, digest, true), (changed.State, changed.AdoptedDigest, changed.Digest != digest));

        Bench.WritePins(3, edits: ("\"spacing\": \"60 mm\"", "\"spacing\": \"60\""));
        await ReadFolder();
        var broken = (await List())[2];
        Assert.Equal((RevisionState.InForce, digest, 1), (broken.State, broken.Digest, broken.Faults.Count));

        File.Delete(Path.Combine(Bench.Folder, "fixtures", "pinbed-1", "r0003.json"));
        await ReadFolder();
        var gone = (await List())[2];
        Assert.Equal((3, RevisionState.InForce, digest, 0), (gone.Revision, gone.State, gone.Digest, gone.Faults.Count));
    }

    [Fact]
    public async Task A_fixture_that_does_not_exist_or_is_another_client_s_has_no_list()
    {
        await Refused(Fixtures.ListRevisionsAsync(new() { Fixture = "nowhere-9" }), StatusCode.NotFound, "FIXTURE_UNKNOWN");
        await Refused(Fixtures.ListRevisionsAsync(new()), StatusCode.InvalidArgument, "KEY_MISSING");

        await using var bench = await Bench.Start(configure: s => s["Clients"]![0]!["Fixtures"] = new JsonArray("rollers-3"));
        var fixtures = new FixtureService.FixtureServiceClient(bench.Channel);
        await Refused(fixtures.ListRevisionsAsync(new() { Fixture = "pinbed-1" }), StatusCode.PermissionDenied, "NOT_PERMITTED");
        Assert.Equal([1, 2], (await fixtures.ListRevisionsAsync(new() { Fixture = "rollers-3" })).Revisions.Select(r => r.Revision));
    }

    /// <summary>Asking for a revision that does not exist reads the folder again and adopts nothing.</summary>
    private Task ReadFolder() =>
        Refused(Fixtures.AdoptAsync(new() { Fixture = "pinbed-1", Revision = 9, By = "setter", Why = "a slip" }), StatusCode.NotFound, "REVISION_UNKNOWN");

    private async Task<IReadOnlyList<RevisionSummary>> List() => (await Fixtures.ListRevisionsAsync(new() { Fixture = "pinbed-1" })).Revisions;
}
