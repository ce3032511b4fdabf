using System.CommandLine;
using System.CommandLine.Parsing;
using System.Text;
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
        var config = ServeCommand.Config();
        var command =
            new ShownCommand(
                "draw", "draws the nest to scale on a page to hang up, with gaps and limits (SVG)",
                "fixture draw pinbed-1 --config config/stockseat.json --diameter 92.40mm --output pinbed-1.svg")
            { fixture, number, diameters, purpose, config, output };
        command.SetAction(parsed =>
        {
            if (ServeCommand.Read(new(parsed.GetValue(config))) is not { } settings)
            {
                return ExitCodes.Usage;
            }

            return RevisionFiles.Find(settings, parsed.GetValue(fixture)!, parsed.GetValue(number)) is { } file
                ? Draw(file, parsed.GetValue(diameters) ?? [], parsed.GetValue(purpose)!, parsed.GetValue(output))
                : ExitCodes.Failed;
        });
        return command;
    }

    private static int Draw(RevisionFile file, double[] diameters, string purpose, string? output)
    {
        if (file.Reading.Revision is not { } revision)
        {
            foreach (var fault in file.Reading.Faults)
            {
                Console.Error.WriteLine(Plain.Text(fault));
            }

            return ExitCodes.Refused;
        }

        var svg = FixtureSheet.Draw(revision, purpose, DrawnPlan.Of(revision.PlanFor(place: purpose == "place"), diameters));
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
