using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>A page in a real browser on the service's own machine tries everything that a page can try: nothing reaches the ledger.</summary>
public abstract class WebPageTests(Build build) : OnBothBuilds(build)
{
    /// <summary>Of the attempts at one port, most arrive as a connection of their own; a browser may merge or leave out some.</summary>
    private const int Arrive = 30;

    public sealed class Ordinary() : WebPageTests(Build.Ordinary);

    public sealed class Native() : WebPageTests(Build.Native);

    [Fact]
    public async Task Everything_that_a_page_sends_to_the_ports_changes_nothing_and_is_turned_away()
    {
        using var cell = Configured();
        await using var service = await Program.Serve(cell);
        var ports = await Ports(service);
        var readings = ports.Select(p => IPEndPoint.Parse(p.GetProperty("endpoint").GetString()!).Port);

        int[] all = [service.Grpc.Port, service.Page.Port, service.Line.Port, .. readings];
        var page = (await Node.Browse("try_page.js", [.. all.Select(p => $"{p}")])).Exits(0).Object;

        // Evidence that they arrived: the gRPC port replies that it does not speak HTTP/1.1, and the others count.
        Assert.True(page.GetProperty("grpc").GetInt32() >= Arrive, $"{page}");
        Assert.DoesNotContain(200, page.GetProperty("statuses").EnumerateArray().Select(s => s.GetInt32()));
        var list = (await service.Ask("fixture", "list")).Exits(0).Out;
        Assert.True(int.Parse(Regex.Match(list, @"turned away since the start:.*\bhost ([0-9]+)").Groups[1].Value) >= Arrive, list);
        Assert.True(int.Parse(Regex.Match(list, @"turned away since the start:.*\bforeign ([0-9]+)").Groups[1].Value) >= Arrive, list);
        Assert.All(ports = await Ports(service), p => Assert.True(Count(p, "foreign") >= Arrive, $"{p}"));

        Assert.All(ports, p => Assert.Equal((0, 0, 0), (Count(p, "readings"), Count(p, "measurements"), Count(p, "refused"))));
        Assert.Equal(0, (await service.Terminate()).ExitCode);
        Assert.Empty(LedgerRows.Read(cell.Data).Select(r => r.Kind)
            .Except(["service-started", "snapshot", "service-stopped", "revision-seen", "revision-adopted"]));
        Assert.Equal(0, page.GetProperty("others").GetInt32());
    }

    [Fact]
    public async Task With_TLS_too_a_page_changes_nothing_even_where_its_machine_s_address_is_a_client()
    {
        using var tls = new TlsCell(byAddress: true);
        await using var service = await Program.Serve(tls.Cell);

        (await Node.Browse("try_page.js", "--tls", $"{service.Grpc.Port}", $"{service.Page.Port}", $"{service.LineTls!.Port}")).Exits(0);

        var list = (await tls.Ask(Program, service, "bench", "fixture", "list")).Exits(0).Out;
        Assert.True(int.Parse(Regex.Match(list, @"turned away since the start:.*\bforeign ([0-9]+)").Groups[1].Value) >= Arrive, list);
        Assert.Matches(@"turned away since the start:.*\bhost [0-9]+", list); // Calls of gRPC that named themselves as a page's.
        Assert.Equal(0, (await service.Terminate()).ExitCode);
        Assert.Empty(LedgerRows.Read(tls.Cell.Data).Select(r => r.Kind)
            .Except(["service-started", "snapshot", "service-stopped", "revision-seen", "revision-adopted"]));
    }

    /// <summary>Two reading ports: one with the defaults, and one that uses each line at once.</summary>
    private static Cell Configured()
    {
        var cell = new Cell();
        var settings = JsonNode.Parse(File.ReadAllText(cell.Config), null, new() { CommentHandling = JsonCommentHandling.Skip })!;
        JsonObject Port(string name) => new()
        {
            ["Name"] = name, ["Gauge"] = "bench-2", ["Fixture"] = "pinbed-1", ["Listen"] = "127.0.0.1:0", ["From"] = new JsonArray("127.0.0.0/8"),
            ["Pattern"] = "D?(?<reading>[0-9]{2}\\.[0-9]{2})", ["Readings"] = 1,
        };
        var bare = Port("at-once");
        (bare["Settle"], bare["Apart"]) = ("00:00:00", "00:00:00");
        settings["ReadingPorts"] = new JsonArray(Port("usual"), bare);
        cell.Write(cell.Config, settings.ToJsonString());
        return cell;
    }

    private static async Task<List<JsonElement>> Ports(Service service) =>
        [
            .. (await service.Ask("fixture", "list", "--json")).Exits(0).Lines.Single(l => l.GetProperty("fixture").GetString() == "pinbed-1")
            .GetProperty("ports").EnumerateArray(),
        ];

    private static long Count(JsonElement port, string what) => port.GetProperty("counts").TryGetProperty(what, out var count) ? count.GetInt64() : 0;
}
