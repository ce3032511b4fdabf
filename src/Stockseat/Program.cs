using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using Stockseat.Cli.Commands;
using Stockseat.Cli.Output;
using Stockseat.Cli.Tour;
using Stockseat.Cli.Usage;

(string Title, Command[] Commands)[] groups =
[
    ("Try it and run it", [TourCommand.Make(), ServeCommand.Make(), SettingsCommand.Make(), DoctorCommand.Make()]),
    ("Measure the stock and ask where it is", [MeasuredCommand.Make(), LocateCommand.Make(), ConfirmCommand.Make(), DoneCommand.Make(), StillCommand.Make(),
        EmptiedCommand.Make(), LoadCommands.Loaded(), LoadCommands.Next(), LoadCommands.Dropped(), LotCommands.Make()]),
    ("Build, calibrate and look after fixtures", [NestCommands.Make(), FixtureCommands.Make()]),
    ("Look at what was served", [LedgerCommands.Make(), PlantCommands.Make()]),
    ("Reach the service over a network", [CertificateCommands.Make()]),
];
var root = new RootCommand(HelpPage.Job);
foreach (var command in groups.SelectMany(g => g.Commands))
{
    root.Subcommands.Add(command);
}

DisplayOptions.AddTo(root);
ServerOption.Complete(root);
var help = root.Options.OfType<HelpOption>().Single();
help.Action = new HelpPage((SynchronousCommandLineAction)help.Action!, groups);

// [diagram] before a command line shows how it is understood, and runs nothing.
root.Directives.Add(new DiagramDirective());

// No @file arguments; wrong usage is 64; the host, not the parser, handles signals.
var parsed = root.Parse(args, new ParserConfiguration { ResponseFileTokenReplacer = null });
if (parsed.Errors.Count > 0)
{
    foreach (var error in UsageErrors.Of(parsed))
    {
        Console.Error.WriteLine(Plain.Text(error));
    }

    Console.Error.WriteLine($"see {UsageErrors.Path(parsed.CommandResult)} --help");
    return ExitCodes.Usage;
}

_ = DisplayOptions.Of(parsed, out var faults);
if (faults.Count > 0)
{
    Console.Error.WriteLine(Plain.Text(string.Join("; ", faults)));
    return ExitCodes.Usage;
}

return await parsed.InvokeAsync(new InvocationConfiguration { ProcessTerminationTimeout = null, EnableDefaultExceptionHandler = false });
