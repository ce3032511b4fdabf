using System.CommandLine;
using System.Runtime.InteropServices;
using Stockseat.Load.Figures;
using Stockseat.Load.Servers;

namespace Stockseat.Load;

/// <summary>Measures all figures, or some, in one run.</summary>
internal static class MeasureCommand
{
    public const long UsualEntries = 1_000_000;
    private const int FewConnections = 64;
    private const int ManyConnections = 1000;

    /// <summary>The parts of a run by name, in their order; the last five need the big ledger.</summary>
    private static Dictionary<string, Func<Run, string, Task>> Parts { get; } = new()
    {
        ["grpc"] = (run, _) => RateFigures.Grpc(run),
        ["lines"] = (run, _) => RateFigures.Lines(run, FewConnections),
        ["lines1000"] = (run, _) => RateFigures.Lines(run, ManyConnections),
        ["latency"] = (run, _) => LatencyFigures.Measure(run),
        ["postgresql"] = (run, _) => RateFigures.PostgreSql(run),
        ["big"] = RateFigures.Big,
        ["start"] = StartFigures.Measure,
        ["verify"] = VerifyFigures.Measure,
        ["replay"] = ReplayFigures.Measure,
        ["review"] = ReviewFigures.Measure,
    };

    private static readonly Option<int> Rounds = new("--rounds") { DefaultValueFactory = _ => 5, HelpName = "N", Description = "how many rounds, each of Stockseat and its baseline" };
    private static readonly Option<double> Seconds = new("--seconds") { DefaultValueFactory = _ => 3, HelpName = "S", Description = "how long each part of a round lasts" };
    private static readonly Option<string?> Program = new("--program") { HelpName = "PATH", Description = "the stockseat that is put under load; the ordinary one unless stated" };
    private static readonly Option<string?> Native = new("--native") { HelpName = "PATH", Description = "the published native program, for its start and memory" };
    private static readonly Option<string> Ordinary = new("--ordinary") { DefaultValueFactory = _ => Repository.Program, HelpName = "PATH", Description = "the published ordinary build; the one beside this program unless stated" };
    private static readonly Option<long> Entries = new("--entries") { DefaultValueFactory = _ => UsualEntries, HelpName = "N", Description = "how many entries the big ledger has" };
    private static readonly Option<string?> Folder = new("--folder") { HelpName = "DIR", Description = "where ledgers and baselines write; a local disk; the temporary folder unless stated" };
    private static readonly Option<string?> Big = new("--big") { HelpName = "DIR", Description = "the big ledger, made by generate with as many --entries, instead of making one; the parts that serve write into it" };
    private static readonly Option<string?> Markdown = new("--markdown") { HelpName = "FILE", Description = "writes the table to a file too" };
    private static readonly Option<string?> Only = new("--only") { HelpName = "NAME,...", Description = $"measures only these: {string.Join(", ", Parts.Keys)}" };

    public static RootCommand Make()
    {
        var root = new RootCommand("Measures Stockseat against baselines in one run: Stockseat, baseline, Stockseat, baseline, ...; medians.")
        {
            Rounds, Seconds, Program, Native, Ordinary, Entries, Big, Folder, Markdown, Only,
        };
        root.SetAction(Measure);
        return root;
    }

    private static async Task<int> Measure(ParseResult parsed, CancellationToken token)
    {
        var names = parsed.GetValue(Only)?.Split(',') ?? [.. Parts.Keys];
        if (names.FirstOrDefault(n => !Parts.ContainsKey(n)) is { } unknown)
        {
            await Console.Error.WriteLineAsync($"there is no {unknown} to measure; there are {string.Join(", ", Parts.Keys)}");
            return 64;
        }

        var plan = PlanOf(parsed);
        var missing = new[] { plan.Program, plan.Ordinary, plan.Native }.FirstOrDefault(p => p is not null && !File.Exists(p));
        if (missing is not null)
        {
            await Console.Error.WriteLineAsync($"there is no program {missing}; DEVELOPERS.md says how to publish both builds");
            return 64;
        }

        using var place = new Workplace(parsed.GetValue(Folder));
        var run = new Run(plan, place, new(), token);
        var big = parsed.GetValue(Big) ?? (names.Any(n => n is "big" or "start" or "verify" or "replay" or "review") ? await place.BigLedger(plan.Entries, token) : "");
        foreach (var name in names)
        {
            await Console.Error.WriteLineAsync(name);
            await Parts[name](run, big);
        }

        await Tell(run.Results.Text(Heading(plan)), parsed.GetValue(Markdown), token);
        return 0;
    }

    private static Plan PlanOf(ParseResult parsed) => new()
    {
        Rounds = parsed.GetValue(Rounds),
        Span = TimeSpan.FromSeconds(parsed.GetValue(Seconds)),
        Program = Path.GetFullPath(parsed.GetValue(Program) ?? parsed.GetValue(Ordinary)!),
        Native = parsed.GetValue(Native) is { } native ? Path.GetFullPath(native) : null,
        Ordinary = Path.GetFullPath(parsed.GetValue(Ordinary)!),
        Entries = parsed.GetValue(Entries),
    };

    private static string Heading(Plan plan) => FormattableString.Invariant(
        $"Medians of {plan.Rounds} rounds of {plan.Span.TotalSeconds:0.#} s; ratio = Stockseat / baseline, median of the rounds; under load: {plan.Program}; {Environment.ProcessorCount} cores, {RuntimeInformation.OSDescription}, {RuntimeInformation.FrameworkDescription}.");

    private static async Task Tell(string text, string? file, CancellationToken token)
    {
        await Console.Out.WriteAsync(text);
        if (file is not null)
        {
            await File.WriteAllTextAsync(file, text, token);
        }
    }
}
