using System.Globalization;
using System.Text.Json;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>Clients on another gRPC implementation, without any generated code: the definitions come from proto/, or from the service itself.</summary>
public abstract class NodeClientTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : NodeClientTests(Build.Ordinary);

    public sealed class Native() : NodeClientTests(Build.Native);

    private const string ErrorInfo = "type.googleapis.com/google.rpc.ErrorInfo";

    // Half of the last decimal served.
    private const double Tolerance = 5e-7;

    [Fact]
    public async Task Grpc_FromTheProtoFiles_DoesTheJob()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);

        var said = (await Node.Run("grpc_client.js", Path.Combine(Repository.Root, "proto"), $"{service.Grpc}")).Exits(0).Object;

        var recorded = said.GetProperty("recorded").GetInt64();
        Assert.Equal(recorded, said.GetProperty("again").GetInt64());
        var answer = said.GetProperty("answer");
        IsLocated(answer, "n1");
        Assert.True(answer.GetProperty("first").GetBoolean());
        Assert.Equal(recorded, answer.GetProperty("measurement").GetInt64());
        Assert.Equal(answer.GetProperty("serial").GetInt64(), said.GetProperty("confirms").GetInt64());
        Assert.True(said.GetProperty("emptied").GetInt64() > said.GetProperty("confirms").GetInt64());
        var refusals = said.GetProperty("refusals");
        IsRefused(refusals.GetProperty("differs"), "FAILED_PRECONDITION", "READBACK_DIFFERS");
        IsRefused(refusals.GetProperty("missing"), "FAILED_PRECONDITION", "MEASUREMENT_MISSING");
        IsRefused(refusals.GetProperty("below"), "OUT_OF_RANGE", "DIAMETER_BELOW_ENVELOPE");
        Assert.Equal("0.060000", refusals.GetProperty("below").GetProperty("metadata").GetProperty("limit").GetString());
    }

    [Fact]
    public async Task Grpc_EntriesReadPageByPage_AreTheLedgerAndHashToItsHead()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);

        var said = (await Node.Run("grpc_client.js", Path.Combine(Repository.Root, "proto"), $"{service.Grpc}")).Exits(0).Object;

        var (walked, verified) = (said.GetProperty("walked"), said.GetProperty("verified"));
        Assert.True(walked.GetProperty("whole").GetBoolean());
        var entries = walked.GetProperty("entries").EnumerateArray().Select(e => (e.GetProperty("serial").GetInt64(), e.GetProperty("kind").GetString()!))
            .ToList();
        Assert.Equal(LedgerRows.Read(cell.Data).Select(r => (r.Serial, r.Kind)), entries);
        Assert.Equal((entries.Count + 1) / 2, walked.GetProperty("pages").GetInt32());
        Assert.True(verified.GetProperty("whole").GetBoolean());
        Assert.Equal(entries.Count, verified.GetProperty("entries").GetInt32());
        Assert.Equal(walked.GetProperty("head").GetString(), verified.GetProperty("head_hash").GetString());
    }

    [Theory]
    [InlineData("v1")]
    [InlineData("v1alpha")]
    public async Task Grpc_FromReflectionAlone_Locates(string version)
    {
        const int notFound = 5;
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);

        var said = (await Node.Run("grpc_reflection.js", version, $"{service.Grpc}")).Exits(0).Object;

        var services = said.GetProperty("services").EnumerateArray().Select(s => s.GetString()!).ToList();
        string[] ours = ["stockseat.v1.FixtureService", "stockseat.v1.GaugeService", "stockseat.v1.LedgerService", "stockseat.v1.LoadService",
            "stockseat.v1.LookupService"];
        Assert.Equal(ours, services.Where(s => s.StartsWith("stockseat.", StringComparison.Ordinal)));
        Assert.Contains("grpc.health.v1.Health", services);
        var methods = said.GetProperty("methods").EnumerateObject().ToDictionary(m => m.Name, m => m.Value.EnumerateArray().Select(v => v.GetString()!));
        Assert.Equal(["Adopt", "GetRevision", "Hold", "ListFixtures", "ListRechecks", "ListRevisions", "Recheck", "Release"], methods[ours[0]]);
        Assert.Equal(["DescribeLot", "Emptied", "ListLots", "Record", "RecordReadings"], methods[ours[1]]);
        Assert.Equal(["Anchor", "GetEntry", "ListEntries", "Note", "Replay", "Review", "Roll", "Verify", "Watch"], methods[ours[2]]);
        Assert.Equal(["LocateGrid", "Next", "ReportDropped", "ReportLoaded"], methods[ours[3]]);
        Assert.Equal(["Confirm", "Locate", "ReportDone", "Still"], methods[ours[4]]);
        Assert.Equal(notFound, said.GetProperty("unknown").GetInt32());
        IsLocated(said.GetProperty("answer"), "n2");
        Assert.False(said.GetProperty("answer").TryGetProperty("measurement", out _), "the diameter was stated");
        IsRefused(said.GetProperty("refusal"), "NOT_FOUND", "FIXTURE_UNKNOWN");
        Assert.Equal("SERVING", said.GetProperty("health").GetString());
        Assert.Equal("SERVING", said.GetProperty("whole").GetString());
    }

    [Fact]
    public async Task Line_AllRequestsInOneWriteAndAHalfClose_AreAnsweredInOrder()
    {
        const int rounds = 40;
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        var requests = Enumerable.Range(0, rounds).SelectMany(n => (string[])
        [
            $"measured fixture=pinbed-1 diameter=92.40mm lot=A1077 tag=m{n}",
            $"locate fixture=pinbed-1 lot=A1077 tag=l{n}",
            $"locate fixture=pinbed-1 diameter=92.4 tag=r{n}",
            $"emptied fixture=pinbed-1 tag=e{n}",
            $"locate fixture=pinbed-1 tag=g{n}",
        ]).ToList();

        var run = (await Node.Run("line_client.js", ["127.0.0.1", service.Line.Port.ToString(CultureInfo.InvariantCulture), .. requests])).Exits(0);

        Assert.EndsWith("\n", run.Out, StringComparison.Ordinal);
        var replies = run.Out[..^1].Split('\n').Select(l => new LineReply(l)).ToList();
        Assert.Equal(requests.Select(r => r[(r.LastIndexOf('=') + 1)..]), replies.Select(r => r["tag"]));
        foreach (var round in replies.Chunk(5))
        {
            Assert.Equal(["ok", "ok", "refused", "ok", "refused"], round.Select(r => r.Verdict));
            Assert.Equal("0.092400", round[0]["diameter"]);
            Assert.Equal((BedPick.By, BedPick.Y, round[0]["serial"]), (round[1]["by"], round[1]["y"], round[1]["measurement"]));
            Assert.Equal("unit-missing", round[2]["reason"]);
            Assert.Equal("measurement-missing", round[4]["reason"]);
        }

        var serials = replies.Where(r => r.Verdict == "ok").Select(r => r.Serial).ToList();
        Assert.Equal(serials.Distinct().Order(), serials);
    }

    /// <summary>A 92.40 mm blank on pinbed-1, as calculated by hand.</summary>
    private static void IsLocated(JsonElement answer, string tag)
    {
        Assert.Equal("pinbed-1", answer.GetProperty("fixture").GetString());
        Assert.Equal(3, answer.GetProperty("revision").GetInt32());
        Assert.Equal("PURPOSE_PICK", answer.GetProperty("purpose").GetString());
        Assert.Equal(tag, answer.GetProperty("tag").GetString());
        Assert.Equal(0.0924, answer.GetProperty("diameter_metres").GetDouble(), Tolerance);
        Are("position_metres", 0.407569, -0.198692, 0.120300);
        Are("shift_base_metres", -0.004731, 0.006308, 0.002300);
        Are("shift_origin_metres", 0, -0.008213, 0);

        void Are(string name, params double[] expected)
        {
            var vector = answer.GetProperty(name);
            Assert.All(expected.Zip("xyz"), pair => Assert.Equal(pair.First, vector.GetProperty($"{pair.Second}").GetDouble(), Tolerance));
        }
    }

    private static void IsRefused(JsonElement refusal, string status, string reason)
    {
        Assert.Equal(status, refusal.GetProperty("status").GetString());
        Assert.Equal(ErrorInfo, refusal.GetProperty("type").GetString());
        Assert.Equal("stockseat", refusal.GetProperty("domain").GetString());
        Assert.Equal(reason, refusal.GetProperty("reason").GetString());
        Assert.NotEmpty(refusal.GetProperty("text").GetString()!);
    }
}
