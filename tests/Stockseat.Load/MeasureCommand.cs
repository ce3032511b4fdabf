using System.CommandLine;
using System.Globalization;
using Stockseat.Load.Figures;
using Stockseat.Load.Servers;

namespace Stockseat.Load;

/// <summary>Measures all figures, or some, in one run.</summary>
internal static class MeasureCommand
{
    public const long UsualEntries = 1_000_000;

    /// <summary>The parts of a run by name, in their order; those from verify on need the big ledger, and the last three write to it.</summary>
    private static OrderedDictionary<string, Func<Run, Task>> Parts { get; } = new()
    {
        ["grpc1"] = run => LoadFigures.Grpc(run, 1, 1),
        ["grpc"] = run => LoadFigures.Grpc(run, 4, 64),
        ["grpc64"] = run => LoadFigures.Grpc(run, 64, 64),
        ["lines1"] = run => LoadFigures.Lines(run, 1),
        ["lines"] = run => LoadFigures.Lines(run, 64),
        ["lines1000"] = run => LoadFigures.Lines(run, 1000),
        ["tls"] = LoadFigures.Tls,
        ["metrics"] = LoadFigures.Metrics,
        ["pace"] = PaceFigures.Measure,
        ["pages"] = PageFigures.Measure,
        ["browsing"] = PageFigures.Browsing,
        ["postgresql"] = LoadFigures.PostgreSql,
        ["verify"] = VerifyFigures.Measure,
        ["replay"] = ReplayFigures.Measure,
        ["review"] = ReviewFigures.Measure,
        ["plant"] = PlantFigures.Measure,
        ["ledgerpage"] = PageFigures.Ledger,
        ["start"] = StartFigures.Measure,
        ["big"] = LoadFigures.Big,
    };

    private static readonly Option<int> Rounds = new("--rounds")
    {
        DefaultValueFactory = _ => 5, HelpName = "N",
        Description = "how many rounds, each of Stockseat and its baseline",
    };

    private static readonly Option<double> Seconds = new("--seconds")
    {
        DefaultValueFactory = _ => 3, HelpName = "S",
        Description = "how long each part of a round lasts",
    };

    private static readonly Option<double> WarmUp = new("--warm-up")
    {
        DefaultValueFactory = _ => 5, HelpName = "S",
        Description = "how long each side is asked before the first round",
    };

    private static readonly Option<string> Service = new("--service")
    {
        DefaultValueFactory = _ => Repository.Service, HelpName = "PATH",
        Description = "the service that is measured",
    };

    private static readonly Option<string> Baseline = new("--baseline")
    {
        DefaultValueFactory = _ => Repository.Baseline, HelpName = "PATH",
        Description = "the program with the echo and the bare scan",
    };

    private static readonly Option<string?> Ordinary = new("--ordinary")
    {
        HelpName = "PATH",
        Description = "an ordinary build of the service: its start and memory are measured too",
    };

    private static readonly Option<long> Entries = new("--entries")
    {
        DefaultValueFactory = _ => UsualEntries, HelpName = "N",
        Description = "how many entries the big ledger has",
    };

    private static readonly Option<string?> Folder = new("--folder")
    {
        HelpName = "DIR",
        Description = "where ledgers and baselines write; a local disk; the temporary folder unless stated",
    };

    private static readonly Option<string?> Big = new("--big")
    {
        HelpName = "DIR",
        Description = "a big ledger that was made by generate with as many --entries, instead of making one; it stays as it is",
    };

    private static readonly Option<string?> Markdown = new("--markdown")
    {
        HelpName = "FILE",
        Description = "writes the table to a file too",
    };

    private static readonly Option<string?> Only = new("--only")
    {
        HelpName = "NAME,...",
        Description = $"measures only these: {string.Join(", ", Parts.Keys)}",
    };

    public static RootCommand Make()
    {
        var root = new RootCommand("Measures Stockseat against baselines in one run: Stockseat, baseline, Stockseat, baseline, ...; medians.")
        {
            Rounds, Seconds, WarmUp, Service, Baseline, Ordinary, Entries, Big, Folder, Markdown, Only,
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
        var missing = new[] { plan.Service, plan.Baseline, plan.Ordinary }.FirstOrDefault(p => p is not null && !File.Exists(p));
        if (missing is not null)
        {
            await Console.Error.WriteLineAsync($"there is no program {missing}; tests/measure publishes what is measured");
            return 64;
        }

        using var place = new Workplace(parsed.GetValue(Folder));
        var run = new Run(plan, place, new(), token);
        var heading = Heading(run);
        try
        {
            foreach (var (name, measure) in Parts.Where(p => names.Contains(p.Key)))
            {
                await Console.Error.WriteLineAsync(name);
                var other = new OtherWork();
                try
                {
                    await measure(run);
                }
                finally
                {
                    run.Results.Beside(name, other.Cores);
                }
            }
        }
        catch (OperationCanceledException) when (token.IsCancellationRequested)
        {
            run.Results.Leave("the rest", "the run was stopped");
        }

        await Tell(run.Results.Text($"{heading} at the start, {Machine.LoadAverage()} at the end."), parsed.GetValue(Markdown));
        return 0;
    }

    private static Plan PlanOf(ParseResult parsed) => new()
    {
        Rounds = parsed.GetValue(Rounds),
        Span = TimeSpan.FromSeconds(parsed.GetValue(Seconds)),
        WarmUp = TimeSpan.FromSeconds(parsed.GetValue(WarmUp)),
        Service = Path.GetFullPath(parsed.GetValue(Service)!),
        Baseline = Path.GetFullPath(parsed.GetValue(Baseline)!),
        Ordinary = parsed.GetValue(Ordinary) is { } ordinary ? Path.GetFullPath(ordinary) : null,
        Entries = parsed.GetValue(Entries),
        Big = parsed.GetValue(Big) is { } big ? Path.GetFullPath(big) : null,
    };

    private static string Heading(Run run) => string.Create(CultureInfo.InvariantCulture, $"""
        Service: {run.Plan.Service} of {File.GetLastWriteTime(run.Plan.Service):yyyy-MM-dd HH:mm}. Baseline: {run.Plan.Baseline}.
        Medians of {run.Plan.Rounds} rounds of {run.Plan.Span.TotalSeconds:0.#} s each, in turns, after {run.Plan.WarmUp.TotalSeconds:0.#} s of warming up each.
        Ratio: Stockseat / baseline of the same round.
        Machine: {Machine.Text(run.Place.Folder)}.
        Load average: {Machine.LoadAverage()}
        """);

    private static async Task Tell(string text, string? file)
    {
        await Console.Out.WriteAsync(text);
        if (file is not null)
        {
            await File.WriteAllTextAsync(file, text);
        }
    }
}
