using System.CommandLine;
using Stockseat.Load;
using Stockseat.Load.Generating;
using Stockseat.Plant.Connecting;

var root = MeasureCommand.Make();
root.Add(GenerateCommand());
root.Add(CellsCommand());
return await root.Parse(args).InvokeAsync(new InvocationConfiguration { ProcessTerminationTimeout = TimeSpan.FromSeconds(30) });

static Command GenerateCommand()
{
    var data = new Option<string>("--data") { Required = true, HelpName = "DIR", Description = "the folder that gets the ledger" };
    var entries = new Option<long>("--entries") { DefaultValueFactory = _ => MeasureCommand.UsualEntries, HelpName = "N", Description = "how many entries" };
    var fixtures = new Option<string>("--fixtures") { DefaultValueFactory = _ => Repository.Fixtures, HelpName = "DIR",
        Description = "the fixtures to adopt; the demo's unless stated" };
    var command = new Command("generate", "makes a big ledger with a whole chain, as a shop would have it") { data, entries, fixtures };
    command.SetAction(async (parsed, token) =>
    {
        await LedgerGenerator.Run(parsed.GetValue(data)!, parsed.GetValue(fixtures)!, parsed.GetValue(entries), Console.Error.WriteLine, token);
        return 0;
    });
    return command;
}

static Command CellsCommand()
{
    var connection = new Option<string>("--connection") { Required = true, HelpName = "TEXT", Description = "how to connect to a prepared plant store" };
    var count = new Option<int>("--count") { DefaultValueFactory = _ => 200, HelpName = "N", Description = "how many cells" };
    var entries = new Option<long>("--entries") { DefaultValueFactory = _ => 5000, HelpName = "N", Description = "how many entries each cell has" };
    var command = new Command("cells", "plays many cells with their own ledgers into one plant store") { connection, count, entries };
    command.SetAction(async (parsed, token) =>
    {
        if (PlantAddress.Read(parsed.GetValue(connection)!, null, out var fault) is not { } address)
        {
            Console.Error.WriteLine($"--connection {fault}");
            return 64;
        }

        await CellsGenerator.Run(address, parsed.GetValue(count), parsed.GetValue(entries), Console.Error.WriteLine, token);
        return 0;
    });
    return command;
}
