using System.CommandLine;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.Cli.Output.Shapes;
using Stockseat.Cli.Usage;
using Stockseat.V1;

namespace Stockseat.Cli.Commands;

/// <summary>Keeps somebody's own words about an entry or an instant in the ledger.</summary>
internal static class NoteCommand
{
    public static Command Make()
    {
        var text = new Argument<string>("TEXT") { Description = "what happened, in your own words" };
        var by = new Option<string>("--by") { HelpName = "WHO", Description = "who writes it", Required = true };
        var entry = new Option<long>("--entry")
        {
            HelpName = "SERIAL", Description = "the entry that it is about", CustomParser = r => Common.Whole(r, "serial", long.MaxValue),
        };
        var at = new Option<string?>("--at") { HelpName = "INSTANT",
            Description = "the instant that it is about, with its offset or Z; without --at and --entry: now" };
        var fixture = new Option<string?>("--fixture") { HelpName = "FIXTURE", Description = "the fixture that it is about" };
        var (server, json) = (Common.Server(), Common.Json());
        var command = new ShownCommand(
            "note", "keeps your own words about an entry or an instant in the ledger; reviews show them",
            "ledger note \"gripper hit pin 2 of nest 3,0\" --by maintenance --entry 1042 --fixture pinbed-1")
        { text, by, entry, at, fixture, server, json };
        command.SetAction(async (parsed, _) => await ServiceClient.Run(server.Of(parsed), async client =>
        {
            var request = new NoteRequest
            {
                Text = parsed.GetValue(text)!,
                By = parsed.GetValue(by)!,
                Entry = parsed.GetValue(entry),
                Instant = parsed.GetValue(at) ?? "",
                Fixture = parsed.GetValue(fixture) ?? "",
                RequestId = ServiceClient.NewRequest(),
            };
            var response = await client.Call(token => client.Ledger.NoteAsync(request, cancellationToken: token));
            if (parsed.GetValue(json))
            {
                Json.Line(new DoneShape(response.Serial));
            }
            else
            {
                Plain.Line($"entry {response.Serial}: noted");
            }

            return ExitCodes.Done;
        }));
        return command;
    }
}
