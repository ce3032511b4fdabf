using System.Text.Json.Nodes;
using Stockseat.EndToEnd.Support;
using Stockseat.Reliability.Support;

namespace Stockseat.Reliability;

/// <summary>
/// Who is answered from another machine: by address and by certificate, over both protocols, from addresses that an entry includes and from others (P9). The
/// machines are network namespaces.
/// </summary>
public sealed class FarClientTests
{
    [Fact]
    public async Task Only_who_belongs_is_answered_from_elsewhere_and_the_ledger_says_who_proved_what()
    {
        await using var inside = await Namespace.Make();
        await using var outside = await Namespace.Make();
        using var tls = new TlsCell();
        tls.Shop.Issue("stranger", TestShop.Client);
        tls.Shop.Issue("service", TestShop.Server, hosts: [inside.Here, outside.Here]);
        tls.Configure(s =>
        {
            s["Listen"] = new JsonObject { ["LineTls"] = "[::]:0" };
            var clients = s["Clients"]!.AsArray();
            clients[0]!["From"] = new JsonArray($"{inside.There}", "127.0.0.1");
            clients.Add(new JsonObject
            {
                ["Name"] = "by-address", ["From"] = new JsonArray($"{inside.There}"), ["Roles"] = new JsonArray("locate", "measure", "review", "calibrate"),
            });
        });
        await using var service = await Launched.Start(tls.Cell, null, null, ("STOCKSEAT_LISTEN_GRPC", "[::]:0"), ("STOCKSEAT_LISTEN_LINE", "0.0.0.0:0"));

        foreach (var (from, who, code, said) in ((Namespace, string?, int, string)[])
        [
            (inside, "bench", 0, ""), (outside, "bench", 0, ""), // By its pin, from anywhere.
            (inside, "lathe-4", 0, ""), (outside, "lathe-4", 1, "is good, but no client of the configuration states it together with this address"),
            (inside, "stranger", 0, ""), (outside, "stranger", 1, "is good, but no client of the configuration"), // Inside by its address.
            (inside, null, 0, ""), (outside, null, 1, "the caller showed no certificate"),
        ])
        {
            var run = await Far(from, tls, service, who, "locate", "pinbed-1", "--diameter", "92.40mm", "--tag", $"{who}");
            Assert.True(code == run.ExitCode && run.Err.Contains(said, StringComparison.Ordinal), $"{who} of {from.There}: {run.ExitCode}, {run.Err}");
        }

        // An address alone is not enough to change what everybody is served.
        Assert.Contains("release from", (await Far(inside, tls, service, null, "fixture", "release", "pinbed-1", "--by", "A", "--why", "b")).Err,
            StringComparison.Ordinal);
        Assert.Contains("is not held", (await Far(inside, tls, service, "bench", "fixture", "release", "pinbed-1", "--by", "A", "--why", "b")).Err,
            StringComparison.Ordinal);

        // Plain lines go by the address alone.
        Assert.StartsWith("ok ", await Plain(inside, service), StringComparison.Ordinal);
        Assert.StartsWith("refused class=request reason=not-permitted", await Plain(outside, service), StringComparison.Ordinal);

        Assert.Equal(0, await service.Terminate());
        var answers = LedgerRows.Read(tls.Cell.Data).Select(r => r.Body).Where(b => b.GetProperty("kind").GetString() == "answer")
            .Select(b => (b.GetProperty("client").GetString(), b.TryGetProperty("certificate", out var pin) ? pin.GetString() : null)).ToList();
        Assert.Equal(
            [
                ("bench", tls.Shop.Pin("bench")), ("bench", tls.Shop.Pin("bench")), ("lathe-4", tls.Shop.Pin("lathe-4")),
                ("by-address", tls.Shop.Pin("stranger")), ("by-address", null), ("by-address", null),
            ],
            answers);
    }

    /// <summary>Runs the program on another machine.</summary>
    private static async Task<Run> Far(Namespace from, TlsCell tls, Launched service, string? who, params string[] arguments)
    {
        string[] command = from.Run(
        [
            Repository.Program, .. arguments, "--server", $"https://{from.Here}:{service.Grpc.Port}", "--authority", tls.Shop.Authority,
            .. who is null ? (string[])[] : ["--certificate", tls.Shop.Pem(who)],
        ]);
        return await Tool.Run(command[0], command[1..]);
    }

    private static async Task<string> Plain(Namespace from, Launched service)
    {
        const string Client = "exec 3<>\"/dev/tcp/$1/$2\" && echo 'locate fixture=pinbed-1 diameter=92.40mm' >&3 && read -r reply <&3 && echo \"$reply\"";
        var command = from.Run("bash", "-c", Client, "client", $"{from.Here}", $"{service.Line.Port}");
        return (await Tool.Run(command[0], command[1..])).Out;
    }
}
