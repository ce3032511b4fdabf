using System.CommandLine;
using Stockseat.Audit.Showing;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.Cli.Usage;
using Stockseat.Ledger.Store;

namespace Stockseat.Cli.Commands;

/// <summary>Lists entries.</summary>
internal static class LedgerList
{
    public static Command Make()
    {
        var range = new EntryRangeOptions();
        var (from, server, json) = (new LedgerFrom(), Common.Server(), Common.Json());
        var command = new ShownCommand(
            "list", "lists entries in the order of their serials", "ledger list --from 2026-11-25T08:00 --kind answer", "ledger list --data data --lot A1077",
            "ledger list --plant --cell demo --kind refusal");
        range.AddTo(command);
        from.AddTo(command);
        command.Options.Add(server);
        command.Options.Add(json);
        command.SetAction(async (parsed, token) =>
        {
            var (wanted, asJson, display) = (range.Of(parsed), parsed.GetValue(json), DisplayOptions.Of(parsed));
            return from.IsService(parsed)
                ? await ServiceClient.Run(server.Of(parsed), async client => await Print(EntrySource.Of(client, wanted, token), asJson, display))
                : await from.Run(parsed, folder => Task.FromResult(
                    LedgerFolder.Read(folder, reader => LedgerCommands.Print(EntrySource.Of(reader, wanted), asJson, display))), token);
        });
        return command;
    }

    private static async Task<int> Print(IAsyncEnumerable<EntryRow> entries, bool json, Display display)
    {
        if (!json)
        {
            return LedgerCommands.Print(await entries.ToListAsync(), json, display); // a table needs all, to know its widths
        }

        await foreach (var entry in entries)
        {
            Json.Line(EntryView.Of(entry));
        }

        return ExitCodes.Done;
    }
}
