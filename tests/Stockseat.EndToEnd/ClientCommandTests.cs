using System.Net;
using System.Net.Sockets;
using System.Text.Json;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>Each command that talks to a service: its table, its JSON, its exit codes.</summary>
public abstract class ClientCommandTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : ClientCommandTests(Build.Ordinary);

    public sealed class Native() : ClientCommandTests(Build.Native);

    [Fact]
    public async Task Measured_TableAndJson()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);

        Assert.Matches(
            @"^measurement \d+: pinbed-1 92\.405 mm\s*$",
            (await service.Ask("measured", "pinbed-1", "3.638in", "--gauge", "bench-2", "--lot", "A1077")).Exits(0).Out);
        var json = (await service.Ask("measured", "pinbed-1", "92.38mm", "92.42mm", "--json")).Exits(0).Object;

        Assert.Equal(0.0924, json.GetProperty("diameter").GetDouble(), 1e-12);
        Assert.Equal("m", json.GetProperty("unit").GetString());
        Assert.Equal((2, 0.00004), (json.GetProperty("readings").GetInt32(), json.GetProperty("spread").GetDouble()));
        Assert.Contains(
            "mm, mean of 2 readings that spread by 0.040 mm", (await service.Ask("measured", "pinbed-1", "92.38mm", "92.42mm")).Exits(0).Out,
            StringComparison.Ordinal);
        Assert.Equal("measurement", LedgerRows.Read(cell.Data)[json.GetProperty("serial").GetInt32() - 1].Kind);
        (await service.Ask("measured", "pinbed-1", "92.4mm", "--gauge", "no-gauge")).Fails(1, "refused: gauge-unknown: ");
        (await service.Ask("measured", "pinbed-1", "92.0mm", "92.4mm", "--gauge", "bench-2")).Fails(1, "refused: readings-disagree: ");
    }

    [Fact]
    public async Task Locate_TableAndJson()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);

        var table = (await service.Ask("locate", "pinbed-1", "--diameter", "92.40mm", "--tag", "t1")).Exits(0).Out;
        var json = (await service.Ask("locate", "pinbed-1", "--diameter", "92.40mm", "--purpose", "place", "--nest", "2,1", "--tag", "t2", "--json")).Exits(0)
            .Object;

        // The numbers of BedPick, in millimetres.
        Assert.Contains("407.569  -198.692  120.300", table, StringComparison.Ordinal);
        Assert.Contains("-4.731  6.308  2.300", table, StringComparison.Ordinal);
        Assert.Contains("yes: run it at reduced speed with people clear", table, StringComparison.Ordinal);
        Assert.Equal("place", json.GetProperty("purpose").GetString());
        Assert.Equal([2, 1], json.GetProperty("nest").EnumerateArray().Select(n => n.GetInt32()));
        Assert.Equal("t2", json.GetProperty("tag").GetString());
        (await service.Ask("locate", "pinbed-1")).Fails(1, "refused: measurement-missing: ");
        (await service.Ask("locate", "pinbed-1", "--diameter", "40mm")).Fails(1, "refused: diameter-below-envelope: ");
        (await service.Ask("locate", "no-such", "--diameter", "40mm", "--json")).Fails(1, "refused: fixture-unknown: ");
    }

    [Fact]
    public async Task Confirm_TableAndJson()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        var serial = (await service.Ask("locate", "pinbed-1", "--diameter", "92.40mm", "--json")).Exits(0).Object.GetProperty("serial").GetRawText();

        (await service.Ask("confirm", serial, "--read", "by=0.006038")).Fails(1, "refused: readback-differs: ");
        (await service.Ask("confirm", "1")).Fails(1, "refused: serial-unknown: ");
        Assert.Contains(
            $"of answer {serial}", (await service.Ask(["confirm", serial, "--read", $"y={BedPick.Y}", .. BedPick.ReadBack.Split(' ')])).Exits(0).Out,
            StringComparison.Ordinal);
        Assert.Contains("no number was read back", (await service.Ask("confirm", serial)).Exits(0).Out, StringComparison.Ordinal);
        Assert.Equal(serial, (await service.Ask("confirm", serial, "--json")).Exits(0).Object.GetProperty("confirms").GetRawText());
        Assert.Contains("may still be used", (await service.Ask("still", serial)).Exits(0).Out, StringComparison.Ordinal);
        Assert.True((await service.Ask("locate", "pinbed-1", "--diameter", "92.40mm", "--json")).Exits(0).Object.GetProperty("first").GetBoolean());
        (await service.Ask("still", serial)).Fails(1, "refused: answer-superseded: ");
        Assert.Contains($"answer {serial} was carried out", (await service.Ask("done", serial)).Exits(0).Out, StringComparison.Ordinal);
        Assert.False((await service.Ask("locate", "pinbed-1", "--diameter", "92.40mm", "--json")).Exits(0).Object.GetProperty("first").GetBoolean());
    }

    [Fact]
    public async Task Emptied_VoidsTheMeasurement()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        (await service.Ask("measured", "pinbed-1", "92.40mm")).Exits(0);
        (await service.Ask("locate", "pinbed-1")).Exits(0);

        Assert.Contains("pinbed-1 emptied or refilled", (await service.Ask("emptied", "pinbed-1")).Exits(0).Out, StringComparison.Ordinal);
        (await service.Ask("locate", "pinbed-1")).Fails(1, "refused: measurement-missing: ");
        Assert.Equal("pinbed-1", (await service.Ask("emptied", "pinbed-1", "--json")).Exits(0).Object.GetProperty("fixture").GetString());
        (await service.Ask("emptied", "no-such")).Fails(1, "refused: fixture-unknown: ");
    }

    [Fact]
    public async Task Fixture_ListAndShow()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);

        var list = (await service.Ask("fixture", "list", "--json")).Exits(0).Lines;
        var table = (await service.Ask("fixture", "list")).Exits(0).Out;
        var show = (await service.Ask("fixture", "show", "pinbed-1", "--json")).Exits(0).Object;
        var older = (await service.Ask("fixture", "show", "pinbed-1", "1", "--json")).Exits(0).Object;

        Assert.Equal(["pinbed-1", "rollers-3", "veerack-2"], list.Select(f => f.GetProperty("fixture").GetString()));
        Assert.All(list, f => Assert.True(f.GetProperty("answers").GetBoolean()));
        Assert.Equal(3, list[0].GetProperty("revision").GetInt32());
        Assert.All(["pinbed-1", "rollers-3", "veerack-2", "ledger writable"], said => Assert.Contains(said, table, StringComparison.Ordinal));
        Assert.Equal(0.08, show.GetProperty("content").GetProperty("taught").GetProperty("diameter").GetDouble(), 1e-12);
        Assert.True(show.GetProperty("inForce").GetBoolean());
        Assert.False(older.GetProperty("inForce").GetBoolean());
        Assert.Contains("taught.diameter", (await service.Ask("fixture", "show", "pinbed-1")).Exits(0).Out, StringComparison.Ordinal);
        (await service.Ask("fixture", "show", "no-such")).Fails(1, "refused: fixture-unknown: ");
        (await service.Ask("fixture", "show", "pinbed-1", "9")).Fails(1, "refused: revision-unknown: ");
    }

    [Fact]
    public async Task FixtureAdopt_PutsARevisionIntoForceWhileTheServiceRuns()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        cell.Publish("pinbed-1", 3, 4, ("\"y\": \"-205.00 mm\"", "\"y\": \"-165.00 mm\""));
        using var socket = await service.Connect();
        Assert.Equal("3", (await socket.Ask("locate fixture=pinbed-1 diameter=92.40mm"))["revision"]);

        (await service.Ask("fixture", "adopt", "pinbed-1", "9", "--by", "setter", "--why", "no such file")).Fails(1, "refused: revision-unknown: ");
        var adopted = (await service.Ask("fixture", "adopt", "pinbed-1", "4", "--by", "setter", "--why", "bed moved", "--json")).Exits(0).Object;

        var answer = await socket.Ask("locate fixture=pinbed-1 diameter=92.40mm");
        Assert.Equal(("4", "-0.158692", "yes"), (answer["revision"], answer["y"], answer["first"]));
        var entry = LedgerRows.Read(cell.Data)[adopted.GetProperty("serial").GetInt32() - 1];
        Assert.Equal("revision-adopted", entry.Kind);
        Assert.Equal("bed moved", entry.Body.GetProperty("why").GetString());
        Assert.Equal(adopted.GetProperty("digest").GetString(), entry.Body.GetProperty("digest").GetString());
        cell.Publish("pinbed-1", 4, 5);
        Assert.Contains(
            "revision 5 is in force", (await service.Ask("fixture", "adopt", "pinbed-1", "5", "--by", "setter", "--why", "again")).Exits(0).Out,
            StringComparison.Ordinal);
    }

    [Fact]
    public async Task FixtureAdopt_WithTheDigestThatCheckPrinted_AdoptsThatFileAndNoOther()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        cell.Publish("pinbed-1", 3, 4, ("\"y\": \"-205.00 mm\"", "\"y\": \"-165.00 mm\""));
        var check = (await Program.Run("fixture", "check", "pinbed-1", "4", "--config", cell.Config)).Exits(0).Out;
        var line = Assert.Single(check.Split('\n'), l => l.Contains("stockseat fixture adopt", StringComparison.Ordinal));
        var digest = (await Program.Run("fixture", "check", "pinbed-1", "4", "--config", cell.Config, "--json")).Exits(0).Object.GetProperty("digest")
            .GetString()!;
        var command = line[line.IndexOf("stockseat fixture adopt", StringComparison.Ordinal)..].Trim();
        Assert.Equal($"stockseat fixture adopt pinbed-1 4 --digest {digest[..16]} --by WHO --why WHY", command);
        string[] adopt = command.Split(' ')[1..];

        cell.Publish("pinbed-1", 3, 4, ("\"y\": \"-205.00 mm\"", "\"y\": \"-166.00 mm\""));
        var now = (await Program.Run("fixture", "check", "pinbed-1", "4", "--config", cell.Config, "--json")).Exits(0).Object.GetProperty("digest")
            .GetString()!;
        var refused = await service.Ask(adopt);
        refused.Fails(1, "refused: revision-changed: pinbed-1: the file of revision 4 has the digest ");
        Assert.All([digest[..16], now[..16]], d => Assert.Contains(d, refused.Err, StringComparison.Ordinal));
        Assert.Equal(3, (await service.Ask("fixture", "show", "pinbed-1", "--json")).Exits(0).Object.GetProperty("revision").GetInt32());

        Assert.Contains(
            $"revision 4 is in force, digest {now}",
            (await service.Ask("fixture", "adopt", "pinbed-1", "4", "--by", "setter", "--why", "by name alone")).Exits(0).Out, StringComparison.Ordinal);
        adopt[5] = now[..12].ToUpperInvariant();
        Assert.Equal(now, (await service.Ask([.. adopt, "--json"])).Exits(0).Object.GetProperty("digest").GetString());
        (await service.Ask("ledger", "replay")).Exits(0);
    }

    [Fact]
    public async Task LedgerListAndTail_FilterAndCount()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        (await service.Ask("locate", "pinbed-1", "--diameter", "92.40mm", "--tag", "a")).Exits(0);
        (await service.Ask("locate", "veerack-2", "--diameter", "80mm", "--tag", "b")).Exits(0);

        Assert.Equal(["a"], Tags(await service.Ask("ledger", "list", "--json", "--fixture", "pinbed-1", "--kind", "answer")));
        Assert.Equal(["b"], Tags(await service.Ask("ledger", "list", "--json", "--tag", "b")));
        Assert.Equal(["a", "b"], Tags(await Program.Run("ledger", "list", "--json", "--client", "bench", "--data", cell.Data)));
        Assert.Equal(["b"], Tags(await service.Ask("ledger", "tail", "--count", "1", "--json")));
        Assert.Contains("service-started", (await service.Ask("ledger", "list")).Exits(0).Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("locate", "pinbed-1", "--diameter", "92.40mm")]
    [InlineData("measured", "pinbed-1", "92.40mm")]
    [InlineData("emptied", "pinbed-1")]
    [InlineData("confirm", "7")]
    [InlineData("fixture", "list")]
    [InlineData("fixture", "show", "pinbed-1")]
    [InlineData("fixture", "adopt", "pinbed-1", "3", "--by", "setter", "--why", "it is there")]
    [InlineData("fixture", "hold", "pinbed-1", "--by", "setter", "--why", "pins")]
    [InlineData("fixture", "release", "pinbed-1", "--by", "setter", "--why", "done")]
    [InlineData("ledger", "tail")]
    [InlineData("ledger", "tail", "--follow")]
    [InlineData("ledger", "verify")]
    public async Task NoServer_Exits2(params string[] arguments)
    {
        // Bound but not listening: nobody else can take the port, and nobody answers.
        using var bound = new Socket(SocketType.Stream, ProtocolType.Tcp);
        bound.Bind(new IPEndPoint(IPAddress.Loopback, 0));
        var server = $"http://{bound.LocalEndPoint}";

        (await Program.Run([.. arguments, "--server", server])).Fails(2, $"no answer from {server}: ");
    }

    private static IEnumerable<string?> Tags(Run run) =>
        run.Exits(0).Lines.Select(l => l.GetProperty("body")).Select(b => b.TryGetProperty("tag", out var tag) ? tag.GetString() : null);
}
