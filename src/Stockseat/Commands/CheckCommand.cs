using System.CommandLine;
using Stockseat.Answers.Advising;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Positions;
using Stockseat.Cli.Output;
using Stockseat.Cli.Output.Shapes;
using Stockseat.Cli.Usage;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;
using Stockseat.Service.Configuration;
using Stockseat.Service.Grpc;

namespace Stockseat.Cli.Commands;

/// <summary>Checks a revision's file where it lies, before anybody adopts it.</summary>
internal static class CheckCommand
{
    public static Command Make()
    {
        var (fixture, number) = (RevisionFiles.Fixture(), RevisionFiles.Number());
        var diameter = new Option<double?>("--diameter")
        {
            HelpName = "LENGTH", Description = "the diameter for which the uncertainty is shown; without it the taught diameter",
            CustomParser = r => Common.Length(r),
        };
        var gauge = GaugeOption.Make("the diameter");
        var (config, json) = (ServeCommand.Config(), Common.Json());
        var command = new ShownCommand(
            "check", "checks a revision's file before it is adopted: faults, advice, changes, which diameters it allows and why, uncertainty",
            "fixture check pinbed-1 --config config/stockseat.json", "fixture check config/fixtures/pinbed-1/r0003.json --diameter 92.40mm")
        {
            fixture, number, diameter, gauge, config, json,
        };
        command.SetAction(parsed =>
        {
            if (ServeCommand.Read(parsed, config) is not { } settings || !GaugeOption.TryFind(settings, parsed.GetValue(gauge), out var from))
            {
                return ExitCodes.Usage;
            }

            return RevisionFiles.Find(settings, parsed.GetValue(fixture)!, parsed.GetValue(number), out var previous) is { } file
                ? Report(file, previous, Around(settings, file), parsed.GetValue(diameter), from, parsed.GetValue(json), settings.Display.Length)
                : ExitCodes.Failed;
        });
        return command;
    }

    /// <summary>The time, and what else is in the folder of fixtures.</summary>
    private static CheckedAt Around(Settings settings, RevisionFile file) =>
        new(TimeProvider.System.GetUtcNow(), RevisionFiles.Others(settings, file.Reading.Revision?.Fixture));

    private static int Report(
        RevisionFile file, RevisionReading? previous, CheckedAt around, double? stated, DiameterFrom? from, bool json, LengthUnit unit)
    {
        var revision = file.Reading.Revision;
        var findings = RevisionFindings.Of(file.Reading, previous, stated, from, json ? LengthUnit.Millimetre : unit, around);
        var faults = revision is null ? file.Reading.FaultCount : findings.Count(f => f.Severity == Severity.Fault);
        var diameter = stated ?? revision?.TaughtDiameterMetres ?? 0;
        var changes = revision is null || previous is null ? null : RevisionChanges.Between(previous, file.Reading);
        var budgets = revision is null ? [] : NestBudget.Of(revision, diameter, revision.StandOffPickMetres, from, 0, 0).Select(Budgets.Of).ToArray();
        if (json)
        {
            Json.Line(new CheckShape(
                file.Path, file.Number, revision?.Digest,
                findings.Where(f => f.Severity == Severity.Fault).Select(f => f.Text), findings.Where(f => f.Severity == Severity.Advice).Select(f => f.Text),
                findings.Select(FindingsView.Of), changes is null ? null : FindingsView.Of(previous!.Revision!, changes),
                revision?.Touched is { } fitted ? TouchView.Of(fitted) : null, revision is null ? null : EnvelopeView.Of(revision), diameter, "m",
                budgets.Select(BudgetView.Of)));
        }
        else
        {
            Plain.Line(revision is null || faults > 0
                ? $"{file.Path}: {faults} fault{(faults == 1 ? "" : "s")}; it can't be adopted"
                : $"{file.Path}: no faults; {revision.Fixture} revision {revision.Number}, digest {revision.Digest[..12]}");
            if (revision is not null && faults == 0)
            {
                var digest = revision.Digest[..DigestPrefix.Shown];
                Plain.Line($"  to adopt exactly this file: stockseat fixture adopt {revision.Fixture} {revision.Number} --digest {digest} --by WHO --why WHY");
            }

            FindingsView.Print(findings);
            if (revision is not null)
            {
                StatementView.Print(revision, unit);
                EnvelopeView.Print(revision, unit);
            }

            if (revision?.Touched is { } touched)
            {
                Plain.Line("");
                Plain.Line("The axes are fitted to touched nests; residuals:");
                TouchView.Print(touched, unit);
            }

            if (changes is not null)
            {
                FindingsView.Print(previous!.Revision!, changes);
            }

            Print(budgets, diameter, from, unit);
        }

        return faults > 0 ? ExitCodes.Refused : ExitCodes.Done;
    }

    private static void Print(IReadOnlyList<V1.Budget> budgets, double diameter, DiameterFrom? from, LengthUnit unit)
    {
        if (budgets.Count > 0)
        {
            Plain.Line("");
            Plain.Line($"  At {unit.FixedText(diameter)}, {(from is null ? "stated" : $"measured with {from.Gauge}")}:");
        }

        foreach (var budget in budgets)
        {
            BudgetView.Print(budget, unit);
        }
    }
}
