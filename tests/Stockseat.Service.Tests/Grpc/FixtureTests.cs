using Google.Rpc;
using Grpc.Core;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Grpc;

public sealed class FixtureTests : GrpcCase
{
    [Fact]
    public async Task A_revision_that_is_written_while_the_service_runs_is_served_once_it_is_adopted()
    {
        Bench.WritePins(4);
        Assert.Equal(3, (await Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924 })).Revision);

        // Asking for a revision that does not exist reads the folder again and adopts nothing.
        await Refused(Fixtures.AdoptAsync(new() { Fixture = "pinbed-1", Revision = 9, By = "setter", Why = "a slip" }), StatusCode.NotFound,
            "REVISION_UNKNOWN");
        var waiting = (await Fixtures.ListFixturesAsync(new())).Fixtures.Single(f => f.Fixture_ == "pinbed-1");
        Assert.Equal([4], waiting.Waiting);
        Assert.Equal(3, waiting.Revision);
        Assert.False((await Fixtures.GetRevisionAsync(new() { Fixture = "pinbed-1", Revision = 4 })).InForce);

        var adopted = await Fixtures.AdoptAsync(new() { Fixture = "pinbed-1", Revision = 4, By = "setter", Why = "new pins" });
        var answer = await Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924 });
        Assert.Equal((4, adopted.Digest, true), (answer.Revision, answer.Digest, answer.First));
        Assert.Empty((await Fixtures.ListFixturesAsync(new())).Fixtures.Single(f => f.Fixture_ == "pinbed-1").Waiting);
        await Refused(Fixtures.AdoptAsync(new() { Fixture = "pinbed-1", Revision = 3, By = "setter", Why = "back" }), StatusCode.InvalidArgument,
            "VALUE_MALFORMED");
    }

    [Fact]
    public async Task A_file_that_changed_between_check_and_adoption_is_only_adopted_by_number_or_its_new_digest()
    {
        Bench.WritePins(4);
        await Refused(Fixtures.AdoptAsync(new() { Fixture = "pinbed-1", Revision = 9, By = "setter", Why = "to read the folder" }), StatusCode.NotFound,
            "REVISION_UNKNOWN");
        var looked = (await Fixtures.GetRevisionAsync(new() { Fixture = "pinbed-1", Revision = 4 })).Digest;
        Bench.WritePins(4, edits: ("\"spacing\": \"60 mm\"", "\"spacing\": \"61 mm\""));
        var ask = new AdoptRequest { Fixture = "pinbed-1", Revision = 4, By = "setter", Why = "new pins", Digest = looked[..16].ToUpperInvariant() };

        var info = await Refused(Fixtures.AdoptAsync(ask), StatusCode.FailedPrecondition, "REVISION_CHANGED");

        Assert.Equal(looked[..16], info.Metadata["asked_digest"]);
        Assert.Equal(3, (await Fixtures.GetRevisionAsync(new() { Fixture = "pinbed-1" })).Revision);
        var now = info.Metadata["file_digest"];
        Assert.Equal(now, (await Fixtures.AdoptAsync(new(ask) { Digest = now })).Digest);
        ask.ClearDigest();
        Assert.Equal(now, (await Fixtures.AdoptAsync(ask)).Digest);
        Assert.Contains($"\"adoptsDigest\":\"{looked[..16]}\"", (await Ledger.ListEntriesAsync(new() { Kind = "refusal" })).Entries[^1].Body,
            StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("0123456789a")] // 11 digits
    [InlineData("0123456789abcdefg")]
    [InlineData("0123456789ab 0123")]
    [InlineData("\uff10\uff11\uff12\uff13\uff14\uff15\uff16\uff17\uff18\uff19\uff10\uff11")]
    [InlineData("0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef0")] // 65
    public async Task A_malformed_digest_does_not_turn_into_an_adoption_by_number(string digest)
    {
        Bench.WritePins(4);

        await Refused(Fixtures.AdoptAsync(new() { Fixture = "pinbed-1", Revision = 4, By = "setter", Why = "new pins", Digest = digest }),
            StatusCode.InvalidArgument, "VALUE_MALFORMED");

        Assert.Equal(3, (await Fixtures.GetRevisionAsync(new() { Fixture = "pinbed-1" })).Revision);
    }

    [Fact]
    public async Task A_faulty_revision_is_not_adopted_and_the_one_in_force_is_still_served()
    {
        Bench.WritePins(4, edits: ("\"spacing\": \"60 mm\"", "\"spacing\": \"60\""));

        var e = await Assert.ThrowsAsync<RpcException>(() =>
            Fixtures.AdoptAsync(new() { Fixture = "pinbed-1", Revision = 4, By = "setter", Why = "new pins" }).ResponseAsync);
        Assert.Equal("CALIBRATION_UNUSABLE", e.GetRpcStatus()!.GetDetail<ErrorInfo>()!.Reason);
        Assert.Contains("nest.pins.spacing", e.Status.Detail, StringComparison.Ordinal);
        Assert.NotEmpty((await Fixtures.ListFixturesAsync(new())).Fixtures.Single(f => f.Fixture_ == "pinbed-1").Faults);
        Assert.Equal(3, (await Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924 })).Revision);
    }

    [Fact]
    public async Task A_revision_in_force_whose_file_changed_is_not_served_until_it_is_restored()
    {
        Bench.WritePins(3, edits: ("\"spacing\": \"60 mm\"", "\"spacing\": \"61 mm\""));
        await Refused(Fixtures.AdoptAsync(new() { Fixture = "pinbed-1", Revision = 3, By = "setter", Why = "again" }), StatusCode.FailedPrecondition,
            "REVISION_CHANGED");
        await Refused(Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924 }), StatusCode.FailedPrecondition, "REVISION_CHANGED");

        Bench.WritePins(3);
        await Fixtures.AdoptAsync(new() { Fixture = "pinbed-1", Revision = 3, By = "setter", Why = "restored" });
        Assert.Equal(3, (await Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924 })).Revision);
    }

    [Fact]
    public async Task All_fixtures_are_listed_with_their_state()
    {
        var measured = await Gauge.RecordAsync(new() { Fixture = "pinbed-1", ReadingsMetres = { 0.0924 }, Lot = "A1077" });
        var list = await Fixtures.ListFixturesAsync(new());

        Assert.Equal(["pinbed-1", "rollers-3", "veerack-2"], list.Fixtures.Select(f => f.Fixture_));
        Assert.Equal((measured.Serial, true), (list.Serial, list.LedgerWritable));
        var pins = list.Fixtures[0];
        Assert.Equal((3, "", measured.Serial, 0.0924, "A1077"), (pins.Revision, pins.Refused, pins.Measurement, pins.MeasuredMetres, pins.Lot));
        Assert.False(list.Fixtures[1].HasMeasurement);
    }

    [Fact]
    public async Task A_revision_is_shown_as_the_content_that_its_digest_covers()
    {
        var shown = await Fixtures.GetRevisionAsync(new() { Fixture = "pinbed-1" });

        Assert.Equal((3, true), (shown.Revision, shown.InForce));
        var hash = System.Security.Cryptography.SHA256.HashData(System.Text.Encoding.UTF8.GetBytes(shown.ContentJson));
        Assert.Equal(Convert.ToHexStringLower(hash), shown.Digest);
        Assert.False((await Fixtures.GetRevisionAsync(new() { Fixture = "pinbed-1", Revision = 1 })).InForce);
        await Refused(Fixtures.GetRevisionAsync(new() { Fixture = "pinbed-1", Revision = 9 }), StatusCode.NotFound, "REVISION_UNKNOWN");
        await Refused(Fixtures.GetRevisionAsync(new() { Fixture = "nowhere-9" }), StatusCode.NotFound, "FIXTURE_UNKNOWN");
    }
}
