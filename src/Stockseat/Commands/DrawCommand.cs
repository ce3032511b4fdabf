using System.CommandLine;
using System.CommandLine.Parsing;
using System.Text;
using Stockseat.Audit.Showing;
using Stockseat.Cli.Output;
using Stockseat.Fixtures.Revisions;
using Stockseat.Sheets.Drawings;

namespace Stockseat.Cli.Commands;

/// <summary>Draws a revision's nest to scale, with what bounds its diameters, on a page to hang up.</summary>
internal static class DrawCommand
{
    public static Command Make()
    {
        var (fixture, number) = (RevisionFiles.Fixture(), RevisionFiles.Number());
        var diameters = new Option<double[]>("--diameter")
        {
            HelpName = "LENGTH",
            Description = $"a diameter to draw, up to {DrawnPlan.Most} of them; without it the ends of what the fixture can hold",
            CustomParser = Lengths,
            AllowMultipleArgumentsPerToken = false,
            Arity = ArgumentArity.OneOrMore,
        };
        var purpose = new Option<string>("--purpose") { Description = "pick or place", DefaultValueFactory = _ => "pick" };
        purpose.AcceptOnlyFromAmong("pick", "place");
        var output = new Option<string?>("--output")
        {
            HelpName = "FILE", Description = "the .svg file to write, over an older one; without it stdout", CustomParser = r => Common.WrittenOver(r, ".svg"),
        };
        var config = ServeCommand.Config();
        var command =
            new Command("draw", "a page to hang up: the nest to scale, gaps, limits; an SVG drawing to scale") 
            {
                fixture, number, diameters, purpose, config, output,
            };
        command.SetAction(parsed =>
        {
            if (ServeCommand.Read(parsed, config) is not { } settings)
            {
                return ExitCodes.Usage;
            }

            return RevisionFiles.Find(settings, parsed.GetValue(fixture)!, parsed.GetValue(number)) is { } file
                ? Draw(file, parsed.GetValue(diameters) ?? [], parsed.GetValue(purpose)!, parsed.GetValue(output), settings.Display)
                : ExitCodes.Failed;
        });
        return command;
    }

    private static int Draw(RevisionFile file, double[] diameters, string purpose, string? output, Display display)
    {
        if (file.Reading.Revision is not { } revision)
        {
            foreach (var fault in file.Reading.Faults)
            {
                Console.Error.WriteLine(Plain.Text(fault));
            }

            return ExitCodes.Refused;
        }

        var svg = FixtureSheet.Draw(
            revision, purpose, DrawnPlan.Of(revision.PlanFor(place: purpose == "place"), diameters) with { Unit = display.Length }, display.Paper);
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
            result.AddError($"{lengths.Length} diameters are too many to tell apart on one page; at most {DrawnPlan.Most} were expected: draw several pages");
        }

        return lengths;
    }
}
