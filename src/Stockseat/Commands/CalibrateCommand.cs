using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using Stockseat.Cli.Output;
using Stockseat.Cli.Usage;
using Stockseat.Fixtures.Calibration;
using Stockseat.Fixtures.Files;
using Stockseat.Fixtures.Reading;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;

namespace Stockseat.Cli.Commands;

/// <summary>Makes a fixture's next revision from an earlier one and from touched nests. The new one is not in force: it waits to be adopted.</summary>
internal static class CalibrateCommand
{
    private sealed record Options(
        Argument<string> Fixture, Argument<string> Table, Argument<int?> Number, Option<string> By, Option<string?> Method, Option<string> Note,
        Option<string?> ResidualLimit, Option<string?> OriginLimit, Option<string> Origin, Option<bool> FitLocators, Option<double?> Touching,
        Option<int?> As, Option<bool> DryRun, Option<string?> Config, Option<bool> Json);

    public static Command Make()
    {
        var o = new Options(
            RevisionFiles.Fixture(),
            new("TABLE") { Description = "the touched nests: a CSV file with the columns nest, diameter [mm], x [mm], y [mm], z [mm]" },
            new("REVISION")
            {
                Description = "the revision whose other values are kept; without it the highest one", Arity = ArgumentArity.ZeroOrOne, CustomParser = r =>
                    FixtureCommands.Number(r),
            },
            new("--by")
            {
                HelpName = "WHO", Description = "who touched the nests; it is kept in the new revision", Required = true, CustomParser = r => Said(r, 1),
            },
            new("--method")
            {
                HelpName = "TEXT", Description = "how the nests were touched; unless stated, how many nests with which masters", CustomParser = r => Said(r, 1),
            },
            new("--note") { HelpName = "TEXT", Description = "what else people should know", DefaultValueFactory = _ => "", CustomParser = r => Said(r, 0) },
            Limit(
                "--residual-limit",
                "the longest residual that a nest may have; without it the limit that the revision states, or else "
                    + $"{LengthUnit.Millimetre.Text(TouchLimits.Usual.ResidualMetres)}"),
            Limit(
                "--origin-limit", "how far the fitted nest 0,0 may be from the taught origin; without it the limit that the revision states, or else "
                    + $"{LengthUnit.Millimetre.Text(TouchLimits.Usual.OriginMetres)}"),
            UsageErrors.Choice(
                new("--origin")
                {
                    Description = "taught: the taught origin is kept and compared; touched: its position is taken from the touched nests",
                    DefaultValueFactory = _ => "taught",
                },
                "taught", "touched"),
            new("--fit-locators") { Description = "also fits the pins' spacing and diameter, or the vee's included angle; needs masters of several diameters" },
            new("--touching")
            {
                HelpName = "LENGTH", Description = "with --fit-locators: the standard deviation of one touch along an axis; estimated unless stated",
                CustomParser = r => Common.Length(r),
            },
            new("--as")
            {
                HelpName = "NUMBER", Description = "the new revision's number; without it the next one", CustomParser = r => FixtureCommands.Number(r),
            },
            new("--dry-run") { Description = "fits and reports, but writes nothing" },
            ServeCommand.Config(),
            Common.Json());
        var command = new ShownCommand(
            "calibrate", "fits the plan's frame to touched nests and writes the next revision, which then waits to be adopted",
            "fixture calibrate pinbed-1 touched.csv --by \"day setter\" --dry-run",
            "fixture calibrate pinbed-1 touched.csv --by \"day setter\" --origin touched --config config/stockseat.json")
        {
            o.Fixture, o.Table, o.Number, o.By, o.Method, o.Note, o.ResidualLimit, o.OriginLimit, o.Origin, o.FitLocators, o.Touching, o.As, o.DryRun, o.Config,
            o.Json,
        };
        command.Validators.Add(r =>
        {
            if (r.GetValue(o.Touching) is not null && !r.GetValue(o.FitLocators))
            {
                r.AddError("--touching needs --fit-locators; add --fit-locators, or leave --touching out");
            }
        });
        command.SetAction(parsed =>
        {
            if (ServeCommand.Read(parsed, o.Config) is not { } settings)
            {
                return ExitCodes.Usage;
            }

            return RevisionFiles.Find(settings, parsed.GetValue(o.Fixture)!, parsed.GetValue(o.Number)) is { } file
                ? Run(file, parsed, o, settings.Display.Length)
                : ExitCodes.Failed;
        });
        return command;
    }

    private static int Run(RevisionFile file, ParseResult parsed, Options o, LengthUnit unit)
    {
        var table = parsed.GetValue(o.Table)!;
        if (Bytes(file.Path) is not { } source || Bytes(table) is not { } bytes)
        {
            return ExitCodes.Failed;
        }

        if (file.Reading.Revision is not { } drawing)
        {
            return Refused([.. file.Reading.Faults, $"{file.Path}: correct it first; the new revision keeps its values"]);
        }

        var faults = new Faults(table);
        var rows = TouchTable.Read(bytes, faults);
        if (!faults.None)
        {
            return Refused(faults.All);
        }

        var folder = Path.GetDirectoryName(file.Path)!;
        var highest = FixtureFolder.Read(Path.GetDirectoryName(folder)!, Path.GetFileName(folder))?.Files[^1].Number ?? file.Number;
        var request = new CalibrationRequest
        {
            Number = parsed.GetValue(o.As) ?? highest + 1,
            Note = new(
                TimeProvider.System.GetUtcNow().ToString("yyyy-MM-ddTHH:mm:ssZ", CultureInfo.InvariantCulture), parsed.GetValue(o.By)!,
                parsed.GetValue(o.Method) ?? TouchView.Method(rows), parsed.GetValue(o.Note)!),
            ResidualLimit = parsed.GetValue(o.ResidualLimit),
            OriginLimit = parsed.GetValue(o.OriginLimit),
            OriginFromTouches = parsed.GetValue(o.Origin) == "touched",
            FitLocators = parsed.GetValue(o.FitLocators),
            TouchingMetres = parsed.GetValue(o.Touching),
        };
        var outcome = Calibrator.Calibrate(source, drawing, rows, table, request);
        var path = outcome.Text is null || parsed.GetValue(o.DryRun) ? null : Path.Combine(folder, RevisionFile.NameOf(request.Number));
        if (path is not null && !Written(path, outcome.Text!.Value))
        {
            return ExitCodes.Failed;
        }

        if (parsed.GetValue(o.Json))
        {
            Json.Line(TouchView.Of(outcome, drawing, path));
        }
        else
        {
            TouchView.Print(outcome, drawing, request.OriginFromTouches, path, unit);
        }

        return outcome.Text is null ? ExitCodes.Refused : ExitCodes.Done;
    }

    private static bool Written(string path, ReadOnlyMemory<byte> text)
    {
        try
        {
            NewFile.Write(path, text.Span);
            return true;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Console.Error.WriteLine(Plain.Text(File.Exists(path)
                ? $"{path} exists already, and a revision is never overwritten; choose another number with --as"
                : $"{path} can't be written: {e.Message.TrimEnd('.')}; make room there, or correct the access rights"));
            return false;
        }
    }

    private static byte[]? Bytes(string path)
    {
        try
        {
            return RegularFile.Read(path, 1 << 20); // as many as a revision may have
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            var named = path.Length == 0 ? "''" : path;
            Console.Error.WriteLine(Plain.Text($"{named} {RegularFile.What(path, e)}; name the file of touched nests after the fixture"));
            return null;
        }
    }

    private static int Refused(IEnumerable<string> faults)
    {
        foreach (var fault in faults)
        {
            Console.Error.WriteLine(Plain.Text(fault));
        }

        return ExitCodes.Refused;
    }

    private static Option<string?> Limit(string name, string description) => new(name)
    {
        HelpName = "LENGTH",
        Description = description,
        CustomParser = r =>
        {
            Common.Length(r);
            return r.Tokens[^1].Value;
        },
    };

    private static string Said(ArgumentResult result, int least)
    {
        var text = result.Tokens[^1].Value;
        if (text.Length < least || text.Length > 400)
        {
            result.AddError($"the text of {result.Argument.Name} has {text.Length} characters; {least} to 400 were expected");
        }

        return text;
    }
}
