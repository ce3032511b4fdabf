using System.CommandLine;
using Stockseat.Load;
using Stockseat.Load.Generating;

var root = MeasureCommand.Make();
root.Add(GenerateCommand());
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
