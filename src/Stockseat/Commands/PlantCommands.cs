using System.CommandLine;
using Stockseat.Cli.Output;
using Stockseat.Cli.Output.Shapes;
using Stockseat.Cli.Usage;
using Stockseat.Plant.Connecting;
using Stockseat.Plant.Evidence;
using Stockseat.Plant.Heads;
using Stockseat.Plant.Schema;

namespace Stockseat.Cli.Commands;

/// <summary>The plant store: every cell's ledger in one PostgreSQL.</summary>
internal static class PlantCommands
{
    private const string Shown = "--connection Host=plant-db;Database=plant;Username=setup";

    public static Command Make() => new ShownCommand(
        "plant", "prepares and reads the plant store: the ledgers of all cells in one PostgreSQL database", $"plant prepare {Shown}", "plant status")
    { Prepare(), Status(), Verify() };

    private static Command Prepare()
    {
        var store = new PlantOptions();
        var show = new Option<bool>("--show") { Description = "prints the SQL instead of running it, for whoever runs it with a tool of their own" };
        var command = new ShownCommand(
            "prepare", "makes or completes the tables, views and roles; doing it again changes nothing",
            $"plant prepare {Shown} --password-file setup.password", "plant prepare --show")
        { show };
        store.AddTo(command);
        command.SetAction(async (parsed, token) =>
        {
            if (parsed.GetValue(show))
            {
                Console.Out.Write(PlantSchema.Text);
                return ExitCodes.Done;
            }

            return await store.Run(parsed, async address =>
            {
                var before = await Preparation.Run(address, token);
                Plain.Line(before == PlantSchema.Newest
                    ? $"{address.Name} has tables of version {before} already; nothing was changed"
                    : $"{address.Name} has tables of version {PlantSchema.Newest} now{(before > 0 ? $"; it had version {before}" : "")}");
                return ExitCodes.Done;
            });
        });
        return command;
    }

    private static Command Status()
    {
        var (store, json) = (new PlantOptions(), Common.Json());
        var command = new ShownCommand(
            "status", "lists every ledger with its newest entry; exit code 0 all continue what is stored, 1 one does not, 2 could not be read",
            $"plant status {Shown}", "plant status --json")
        { json };
        store.AddTo(command);
        command.SetAction((parsed, token) => store.Run(parsed, async address =>
        {
            await using var connection = await PlantConnection.To(address, token);
            var ledgers = await StoredLedgers.All(connection, address, token);
            PlantStatusView.Print(ledgers, parsed.GetValue(json), DisplayOptions.Of(parsed).Times);
            return ledgers.Any(l => l.Differs is not null) ? ExitCodes.Refused : ExitCodes.Done;
        }));
        return command;
    }

    private static Command Verify()
    {
        var (store, json) = (new PlantOptions(), Common.Json());
        var progress = new Option<bool>("--progress") { Description = "shows its progress on stderr even when stderr is not a terminal" };
        var command = new ShownCommand(
            "verify", "checks the whole chain of every ledger, several at once; exit code 0 all intact, 1 one is not, 2 one could not be checked",
            $"plant verify {Shown}", "plant verify --json")
        { progress, json };
        store.AddTo(command);
        command.SetAction((parsed, token) => store.Run(parsed, async address =>
        {
            IReadOnlyList<StoredLedger> ledgers;
            await using (var connection = await PlantConnection.To(address, token))
            {
                ledgers = await StoredLedgers.All(connection, address, token);
            }

            using var line = new ProgressLine(TimeProvider.System, parsed.GetValue(progress));
            return PlantVerificationView.Print(await new StoredVerifier(address, line.Tell).Run(ledgers, token), parsed.GetValue(json));
        }));
        return command;
    }
}
