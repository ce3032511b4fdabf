using System.CommandLine;
using System.CommandLine.Parsing;
using System.Text;
using Stockseat.Audit.Showing;
using Stockseat.Cli.Output;
using Stockseat.Cli.Usage;
using Stockseat.Fixtures.Revisions;
using Stockseat.Sheets.Drawings;

namespace Stockseat.Cli.Commands;

/// <summary>Draws a revision's nest to scale on a page to hang up, with what limits its diameters.</summary>
internal static class DrawCommand
{
    public static Command Make()
    {
        var (fixture, number) = (RevisionFiles.Fixture(), RevisionFiles.Number());
        var diameters = new Option<double[]>("--diameter")
        {
            HelpName = "LENGTH",
            Description = $"a diameter to draw; may be given up to {DrawnPlan.Most} times; without it the smallest and the largest allowed",
            CustomParser = Lengths,
            AllowMultipleArgumentsPerToken = false,
            Arity = ArgumentArity.OneOrMore,
        };
        var purpose = Common.Purpose();
        var output = new Option<string?>("--output")
        {
            HelpName = "FILE", Description = "the .svg file to write, which is overwritten; without it stdout",
            CustomParser = r => Common.Overwritten(r, ".svg"),
        };
        var shift = new Option<bool>("--shift")
        {
            Description = "draws one nest only, with the shift of the one --diameter: a small figure for a document",
        };
        var config = ServeCommand.Config();
        var command =
            new ShownCommand(
                "draw", "draws the nest to scale on a page to hang up, with gaps and limits (SVG)",
                "fixture draw pinbed-1 --config config/stockseat.json --diameter 92.40mm --output pinbed-1.svg")
            { fixture, number, diameters, purpose, shift, config, output };
        command.Validators.Add(parsed =>
        {
            if (parsed.GetValue(shift) && parsed.GetValue(diameters)?.Length != 1)
            {
                parsed.AddError("--shift draws the shift of one diameter: state it with --diameter, once");
            }
        });
        command.SetAction(parsed =>
        {
            if (ServeCommand.Read(parsed, config) is not { } settings)
            {
                return ExitCodes.Usage;
            }

            return RevisionFiles.Find(settings, parsed.GetValue(fixture)!, parsed.GetValue(number)) is { } file
                ? Draw(file, parsed.GetValue(diameters) ?? [], parsed.GetValue(purpose)!, parsed.GetValue(shift), parsed.GetValue(output), settings.Display)
                : ExitCodes.Failed;
        });
        return command;
    }

    private static int Draw(RevisionFile file, double[] diameters, string purpose, bool shift, string? output, Display display)
    {
        if (file.Reading.Revision is not { } revision)
        {
            foreach (var fault in file.Reading.Faults)
            {
                Console.Error.WriteLine(Plain.Text(fault));
            }

            return ExitCodes.Refused;
        }

        var place = purpose == "place";
        var svg = shift ? ShiftFigure.Draw(revision, place, diameters[0], display.Length)
            : FixtureSheet.Draw(revision, purpose, DrawnPlan.Of(revision.PlanFor(place), diameters) with { Unit = display.Length }, display.Paper);
        if (svg is null)
        {
            Console.Error.WriteLine(
                $"stock of {display.Length.Text(diameters[0])} finds no seat in a nest of {revision.Fixture}: draw a diameter that it holds ('stockseat "
                    + $"fixture "
                    + "check' tells which)");
            return ExitCodes.Refused;
        }

        if (output is not null)
        {
            return PageFile.Write(output, svg);
        }

        // In UTF-8, as XML without a declaration is, whatever the terminal speaks.
        using var stdout = Console.OpenStandardOutput();
        stdout.Write(Encoding.UTF8.GetBytes(svg));
        return ExitCodes.Done;
    }

    private static double[] Lengths(ArgumentResult result)
    {
        var lengths = result.Tokens.Select(t => Common.Length(result, t.Value)).ToArray();
        if (lengths.Distinct().Count() > DrawnPlan.Most)
        {
            result.AddError($"{lengths.Length} diameters are too many for one page; at most {DrawnPlan.Most} were expected: draw several pages");
        }

        return lengths;
    }
}
