using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Stockseat.EndToEnd.Support;
using Stockseat.Tests.Support.Ledgers;

namespace Stockseat.EndToEnd;

/// <summary>
/// Whoever can write to the ledger's file can write anything into a body, with a right chain. Every command says so and ends as documented.
/// </summary>
public abstract class ForgedBodyTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : ForgedBodyTests(Build.Ordinary);

    public sealed class Native() : ForgedBodyTests(Build.Native);

    /// <summary>One in this number of forgeries, different ones each time: a review shows 2000 entries at most.</summary>
    private const int Every = 3;

    [Fact]
    public async Task EveryCommand_EndsAsDocumented_WhateverIsInABody()
    {
        using var cell = new Cell();
        await Fill(cell);
        var file = Path.Combine(cell.Data, "ledger.db");
        long serial;
        using (var forger = new Forger(file))
        {
            var bodies = forger.Bodies();
            serial = bodies[^1].Serial + 1;
            var (next, skip) = (serial, Random.Shared.Next(Every));
            forger.Append(bodies.DistinctBy(b => KindOf(b.Body)).SelectMany(b => Forger.Mutations(b.Body)).Where((_, i) => i % Every == skip)
                .Select(m => At(next++, m.Body)));
        }

        var at = JsonDocument.Parse((await Program.Run("ledger", "list", "--data", cell.Data, "--until", "1", "--json"))
            .Exits(0).Out).RootElement.GetProperty("body").GetProperty("at").GetString()!;
        (string[] Arguments, int[] Codes)[] commands =
        [
            (["list"], [0]), (["list", "--json"], [0]), (["tail", "--count", "1000"], [0]), (["export", "--csv"], [0]), (["export", "--jsonl"], [0]),
            (["verify"], [1]), (["replay"], [1, 2]), (["replay", Text(serial)], [0, 1, 2]),
            (["review", "--at", at], [1, 2]), (["review", "--at", at, "--json"], [1, 2]), (["review", "--at", at, "--csv"], [1, 2]),
            (["review", "--at", at, "--verify"], [1]), (["review", "--at", at, "--html", Path.Combine(cell.Folder, "review.html")], [1]),
        ];
        foreach (var (arguments, codes) in commands)
        {
            var run = await Program.Run(["ledger", .. arguments, "--data", cell.Data]);
            Assert.True(codes.Contains(run.ExitCode), $"ledger {string.Join(' ', arguments)} ended with {run.ExitCode}: {run.Err}");
            Assert.DoesNotContain("Unhandled", run.Err, StringComparison.Ordinal);
        }

        Assert.Contains("can't be read", (await Program.Run("ledger", "list", "--data", cell.Data)).Out, StringComparison.Ordinal);
        Assert.Contains("NOT READABLE", await File.ReadAllTextAsync(Path.Combine(cell.Folder, "review.html")), StringComparison.Ordinal);
    }

    [Fact]
    public async Task OnATerminal_NoTextMovesTheCursorOrReversesALine()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux() && File.Exists("/usr/bin/script"), "script is not installed: there is no terminal");
        using var cell = new Cell();
        await using (var service = await Program.Serve(cell))
        {
            (await service.Ask("fixture", "hold", "pinbed-1", "--by", "\u001b[2Jsetter", "--why", "chips \u202eevil\u009b31m")).Exits(0);
            await service.Terminate();
        }

        using (var forger = new Forger(Path.Combine(cell.Data, "ledger.db")))
        {
            var (serial, body) = forger.Bodies().Single(b => KindOf(b.Body) == "held");
            forger.Put(serial, body.Replace("chips", "\u202e\u009b chips", StringComparison.Ordinal)); // unescaped, as no writer writes them
        }

        foreach (var arguments in (string[])["export --csv", "export --jsonl", "review --at 1 --csv"])
        {
            var shown = await OnTerminal($"'{Program.Path}' ledger {arguments} --data '{cell.Data}'");
            Assert.Contains("chips", shown, StringComparison.Ordinal);
            Assert.DoesNotContain("\u001b[2J", shown, StringComparison.Ordinal); // the run-time sends a few escape sequences of its own
            Assert.DoesNotContain(shown, c => c is '\u202e' or '\u009b');
        }

        // A file and a program get the texts unchanged.
        var piped = (await Program.Run("ledger", "export", "--csv", "--data", cell.Data)).Exits(0).Out;
        Assert.Contains("\u001b[2Jsetter", piped, StringComparison.Ordinal);
        Assert.Contains("\u202eevil\u009b31m", piped, StringComparison.Ordinal);
    }

    /// <summary>What a real terminal would be sent.</summary>
    private static async Task<string> OnTerminal(string command) =>
        (await Tool.Run("/usr/bin/script", ["-qec", command, "/dev/null"], null, ("LANG", "C.UTF-8"))).Out;

    private static async Task Fill(Cell cell)
    {
        await using var service = await Built.Ordinary.Serve(cell);
        string[][] asks =
        [
            ["measured", "pinbed-1", "92.40mm", "92.42mm", "--gauge", "bench-2", "--lot", "A1077"], ["locate", "pinbed-1", "--lot", "A1077"],
            ["lot", "describe", "B9", "--nominal", "90mm", "--tolerance", "h11"],
            ["fixture", "hold", "pinbed-1", "--by", "setter", "--why", "chips"], ["fixture", "release", "pinbed-1", "--by", "setter", "--why", "done"],
            ["fixture", "recheck", "pinbed-1", "--master", "80mm", "--found", "412.30mm,-204.98mm,118.02mm", "--by", "setter"], ["emptied", "pinbed-1"],
        ];
        foreach (var ask in asks)
        {
            Assert.InRange((await service.Ask(ask)).ExitCode, 0, 1);
        }

        var serial = (await service.Ask("locate", "pinbed-1", "--diameter", "92.40mm", "--json")).Exits(0).Object.GetProperty("serial").GetInt64();
        (await service.Ask(["confirm", Text(serial), "--read", .. BedPick.ReadBack.Split(' ')])).Exits(0);
        (await service.Ask("done", Text(serial), "--by", "setter")).Exits(0);
        (await service.Ask("ledger", "note", "gripper hit pin 2", "--by", "setter", "--entry", Text(serial))).Exits(0);
        (await service.Ask("locate", "pinbed-1")).Exits(1);
        await service.Terminate();
    }

    private static (long Serial, string Body) At(long serial, string body)
    {
        // A mutation of the serial itself, or one that none of the JSON readers here accepts, stays as it is.
        try
        {
            var json = JsonNode.Parse(body)!;
            return (serial, json["serial"]?.GetValueKind() == JsonValueKind.Number ? Renumbered(body, json["serial"]!.ToJsonString(), serial) : body);
        }
        catch (JsonException)
        {
            return (serial, body);
        }
    }

    private static string Renumbered(string body, string was, long serial) =>
        body.Replace($"\"serial\":{was},", $"\"serial\":{Text(serial)},", StringComparison.Ordinal);

    private static string? KindOf(string body) => JsonDocument.Parse(body).RootElement.GetProperty("kind").GetString();

    private static string Text(long number) => number.ToString(CultureInfo.InvariantCulture);
}
