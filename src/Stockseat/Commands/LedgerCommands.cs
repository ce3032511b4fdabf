using System.CommandLine;
using Stockseat.Audit.Showing;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.Cli.Usage;
using Stockseat.Ledger.Store;
using Stockseat.V1;

namespace Stockseat.Cli.Commands;

internal static class LedgerCommands
{
    private const int MostTail = 1000;

    public static Command Make() => new ShownCommand(
        "ledger", "reads, checks, replays and copies the ledger, of a running service or from its folder", "ledger tail", "ledger verify --data data")
    {
        Tail(), LedgerList.Make(), LedgerExport.Make(), LedgerCopying.Make(), LedgerRoll.Make(), NoteCommand.Make(), LedgerVerifyCommand.Make(),
        LedgerReplayCommand.Make(),
        ReviewCommand.Make(),
        AnchorCommand.Make(),
    };

    private static Command Tail()
    {
        var count = new Option<int>("--count")
        {
            HelpName = "N", Description = $"how many entries, 1 to {MostTail}", DefaultValueFactory = _ => 20,
            CustomParser = r => (int)Common.Whole(r, "number of entries", MostTail),
        };
        var (data, server, json) = (LedgerFolder.Option(), Common.Server(), Common.Json());
        var follow = new Option<bool>("--follow") { Description = "keeps printing each new entry until you press Ctrl+C" };
        var command = new ShownCommand("tail", "lists the newest entries", "ledger tail --count 50", "ledger tail --follow")
        { count, follow, data, server, json };
        command.Validators.Add(r =>
        {
            if (r.GetValue(follow) && r.GetValue(data) is not null)
            {
                r.AddError("--follow asks the running service; leave --data out, or read the folder with ledger list --after SERIAL --data DIR");
            }
        });
        command.SetAction(async (parsed, _) =>
        {
            var n = parsed.GetValue(count);
            if (parsed.GetValue(follow))
            {
                return await ServiceClient.Run(
                    server.Of(parsed), client => LedgerFollow.Run(client, n, parsed.GetValue(json), DisplayOptions.Of(parsed)));
            }

            var (asJson, display) = (parsed.GetValue(json), DisplayOptions.Of(parsed));
            return parsed.GetValue(data) is { } folder
                ? LedgerFolder.Read(folder, reader => Print(reader.Newest(n), asJson, display))
                : await ServiceClient.Run(server.Of(parsed), async client =>
                    Print(
                        (await client.Call(token => client.Ledger.ListEntriesAsync(new() { After = -n }, cancellationToken: token)))
                            .Entries.Select(EntryReading.Of), asJson, display));
        });
        return command;
    }

    internal static int Print(IEnumerable<EntryRow> entries, bool json, Display display)
    {
        if (json)
        {
            foreach (var entry in entries)
            {
                Json.Line(EntryView.Of(entry));
            }
        }
        else
        {
            Plain.Table(EntryView.Columns(display), entries.Select(e => EntryView.ToRow(e, display)));
        }

        return ExitCodes.Done;
    }
}
