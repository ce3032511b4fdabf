using System.CommandLine;
using System.Text.Json.Nodes;
using Stockseat.Answers.Advising;
using Stockseat.Answers.Deciding;
using Stockseat.Answers.Records;
using Stockseat.Cli.Output;
using Stockseat.Fixtures.Adoption;
using Stockseat.Fixtures.Revisions;
using Stockseat.Service.Configuration;
using Stockseat.Service.Grpc;

namespace Stockseat.Cli.Commands;

/// <summary>Checks a revision's file where it lies, before anybody adopts it.</summary>
internal static class CheckCommand
{
    public static Command Make()
    {
        var (fixture, number) = (RevisionFiles.Fixture(), RevisionFiles.Number());
        var diameter = new Option<double?>("--diameter") { HelpName = "LENGTH", Description = "the diameter that the uncertainty is told for; without it the taught one", CustomParser = r => Common.Length(r) };
        var gauge = new Option<string?>("--gauge") { HelpName = "G", Description = "the gauge of the configuration that measures it; without it a stated diameter" };
        var (config, json) = (ServeCommand.Config(), Common.Json());
        var command = new Command("check", "the faults of a revision's file, advice, which diameters it holds and why, and what its uncertainty is made of") { fixture, number, diameter, gauge, config, json };
        command.SetAction(parsed =>
        {
            if (ServeCommand.Read(new(parsed.GetValue(config))) is not { } settings)
            {
                return ExitCodes.Usage;
            }

            var name = parsed.GetValue(gauge);
            DiameterFrom? from = null;
            if (name is not null)
            {
                if (!settings.Gauges.TryGetValue(name, out var known))
                {
                    Console.Error.WriteLine(Plain.Text($"there is no gauge '{name}'; name one of {string.Join(", ", settings.Gauges.Keys.Order(StringComparer.Ordinal))}, or add it to Gauges in the configuration"));
                    return ExitCodes.Usage;
                }

                from = new() { Gauge = name, Limits = known.Terms.Limits };
            }

            return RevisionFiles.Find(settings, parsed.GetValue(fixture)!, parsed.GetValue(number)) is { } file
                ? Report(file, parsed.GetValue(diameter), from, parsed.GetValue(json))
                : ExitCodes.Failed;
        });
        return command;
    }

    private static int Report(RevisionFile file, double? stated, DiameterFrom? from, bool json)
    {
        var revision = file.Reading.Revision;
        IReadOnlyList<string> faults = revision is null ? file.Reading.Faults : [.. EnvelopeFaults.Of(revision)];
        var diameter = stated ?? revision?.TaughtDiameterMetres ?? 0;
        IReadOnlyList<string> advice = revision is null ? [] : [.. RevisionAdvice.Of(revision, diameter, from)];
        var budgets = revision is null ? [] : NestBudget.Of(revision, diameter, revision.StandOffPickMetres, from, 0, 0).Select(Budgets.Of).ToArray();
        if (json)
        {
            Json.Line(new()
            {
                ["file"] = file.Path,
                ["revision"] = file.Number,
                ["digest"] = revision?.Digest,
                ["faults"] = Json.Array(faults, f => JsonValue.Create(f)),
                ["advice"] = Json.Array(advice, a => JsonValue.Create(a)),
                ["envelope"] = revision is null ? null : EnvelopeView.Of(revision),
                ["diameter"] = diameter,
                ["unit"] = "m",
                ["budgets"] = Json.Array(budgets, BudgetView.Of),
            });
        }
        else
        {
            Print(file, faults, revision, diameter, from, advice, budgets);
        }

        return faults.Count > 0 ? ExitCodes.Refused : ExitCodes.Done;
    }

    private static void Print(
        RevisionFile file, IReadOnlyList<string> faults, Revision? revision, double diameter, DiameterFrom? from, IReadOnlyList<string> advice, IReadOnlyList<V1.Budget> budgets)
    {
        Plain.Line(revision is null || faults.Count > 0
            ? $"{file.Path}: {faults.Count} fault{(faults.Count == 1 ? "" : "s")}; it can't be adopted"
            : $"{file.Path}: no faults; {revision.Fixture} revision {revision.Number}, digest {revision.Digest[..12]}");
        foreach (var fault in faults)
        {
            Plain.Line($"  fault: {fault}");
        }

        foreach (var sentence in advice)
        {
            Plain.Line($"  advice: {sentence}.");
        }

        if (revision is not null)
        {
            EnvelopeView.Print(revision);
        }

        if (budgets.Count > 0)
        {
            Plain.Line("");
            Plain.Line($"  At {FixedPoint.Text(diameter)} m, {(from is null ? "stated" : $"measured with {from.Gauge}")}:");
        }

        foreach (var budget in budgets)
        {
            BudgetView.Print(budget);
        }
    }
}
