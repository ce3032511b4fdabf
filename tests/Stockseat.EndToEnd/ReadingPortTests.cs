using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;
using Stockseat.EndToEnd.Support;
using Stockseat.Tests.Support;

namespace Stockseat.EndToEnd;

/// <summary>A gauge that only sends its own bare numbers.</summary>
public abstract class ReadingPortTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : ReadingPortTests(Build.Ordinary);

    public sealed class Native() : ReadingPortTests(Build.Native);

    [Fact]
    public async Task BareNumbersWithADecimalComma_LeadToAnAnswerToLocate()
    {
        using var cell = Configured("""(?<reading>[0-9]{2},[0-9]{2})""");
        await using var service = await Program.Serve(cell);
        var endpoint = await Endpoint(service);
        (await Python.Run("bench_gauge.py", "127.0.0.1", $"{endpoint.Port}", "OL", "92,4", "2,40", "92.40", "92,38 92,42", "92,38", "92,42")).Exits(0);
        using var socket = await service.Connect();
        var state = await Until(socket, " measurement=");

        var reply = await socket.Ask("locate fixture=pinbed-1 tag=9");
        Assert.Equal(("ok", state["measurement"], "0.092400", BedPick.By), (reply.Verdict, reply["measurement"], reply["diameter"], reply["by"]));
        var port = await Port(service);
        Assert.Equal((7, 2, 1, 5), (Count(port, "lines"), Count(port, "readings"), Count(port, "measurements"), Count(port, "no-match")));
        var table = (await service.Ask("fixture", "list")).Exits(0).Out;
        Assert.Contains("bench-gauge   bench-2  pinbed-1  127.0.0.1:", table, StringComparison.Ordinal);
        Assert.Contains("no-match 5", table, StringComparison.Ordinal);
        Assert.Equal(0, (await service.Terminate()).ExitCode);
        var body = LedgerRows.Read(cell.Data)[(int)long.Parse(state["measurement"]) - 1].Body;
        Assert.Equal(("bench-gauge", "[0.09238,0.09242]"), (body.GetProperty("client").GetString(), body.GetProperty("readings").GetRawText()));
    }

    [Fact]
    public async Task APatternThatBacktracksEndlessly_HarmsNobody()
    {
        using var cell = Configured("""(?=(?:[0-9,]|[0-9,][0-9,])+$)(?<reading>[0-9,!]+)""");
        await using var service = await Program.Serve(cell);
        var endpoint = await Endpoint(service);
        (await Python.Run("bench_gauge.py", "127.0.0.1", $"{endpoint.Port}", $"{new string('1', 200)}!", "92,40")).Exits(0);
        using var socket = await service.Connect();
        Assert.Equal("ok", (await socket.Ask("locate fixture=pinbed-1 diameter=92.40mm")).Verdict);

        JsonElement port = default;
        await Deadline.Until(async () => Count(port = await Port(service), "lines") >= 2, "the second line");

        Assert.Equal((1, 1), (Count(port, "pattern-timeout"), Count(port, "passed-over") + Count(port, "readings")));
    }

    private static Cell Configured(string pattern)
    {
        var cell = new Cell();
        var settings = JsonNode.Parse(File.ReadAllText(cell.Config), null, new() { CommentHandling = JsonCommentHandling.Skip })!;
        settings["ReadingPorts"] = new JsonArray(new JsonObject
        {
            ["Name"] = "bench-gauge", ["Gauge"] = "bench-2", ["Fixture"] = "pinbed-1", ["Listen"] = "127.0.0.1:0", ["From"] = new JsonArray("127.0.0.0/8"),
            ["Pattern"] = pattern, ["DecimalMark"] = ",", ["Settle"] = "00:00:00", ["Apart"] = "00:00:00",
        });
        cell.Write(cell.Config, settings.ToJsonString());
        return cell;
    }

    private static async Task<JsonElement> Port(Service service) =>
        (await service.Ask("fixture", "list", "--json")).Exits(0).Lines.Single(l => l.GetProperty("fixture").GetString() == "pinbed-1").GetProperty("ports")[0];

    private static async Task<IPEndPoint> Endpoint(Service service) => IPEndPoint.Parse((await Port(service)).GetProperty("endpoint").GetString()!);

    private static long Count(JsonElement port, string what) => port.GetProperty("counts").TryGetProperty(what, out var count) ? count.GetInt64() : 0;

    /// <summary>Asks for the fixture's state until it contains a text.</summary>
    private static async Task<LineReply> Until(LineSocket socket, string text)
    {
        LineReply? reply = null;
        await Deadline.Until(
            async () => (reply = await socket.Ask("status fixture=pinbed-1")).Text.Contains(text, StringComparison.Ordinal), text, more: () => reply!.Text);
        return reply!;
    }
}
