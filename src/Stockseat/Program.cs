using System.CommandLine;
using Stockseat.Cli.Commands;
using Stockseat.Cli.Output;
using Stockseat.Cli.Tour;

var root = new RootCommand("Stockseat: where is the pick grid's origin for stock of this diameter? Not a safety function.")
{
    ServeCommand.Make(),
    TourCommand.Make(),
    LocateCommand.Make(),
    MeasuredCommand.Make(),
    EmptiedCommand.Make(),
    ConfirmCommand.Make(),
    LotCommands.Make(),
    FixtureCommands.Make(),
    LedgerCommands.Make(),
    NestCommands.Make(),
    SettingsCommand.Make(),
};
DisplayOptions.AddTo(root);

// No @file arguments; wrong usage is 64; the host, not the parser, handles signals.
var parsed = root.Parse(args, new ParserConfiguration { ResponseFileTokenReplacer = null });
if (parsed.Errors.Count > 0)
{
    foreach (var error in parsed.Errors)
    {
        Console.Error.WriteLine(Plain.Text(string.Join(' ', error.Message.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries))));
    }

    Console.Error.WriteLine("see stockseat --help");
    return ExitCodes.Usage;
}

_ = DisplayOptions.Of(parsed, out var faults);
if (faults.Count > 0)
{
    Console.Error.WriteLine(Plain.Text(string.Join("; ", faults)));
    return ExitCodes.Usage;
}

return await parsed.InvokeAsync(new InvocationConfiguration { ProcessTerminationTimeout = null, EnableDefaultExceptionHandler = false });
