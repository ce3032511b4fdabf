using System.CommandLine;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Cli.Output;
using Stockseat.Plant.Connecting;
using Stockseat.Plant.Evidence;
using Stockseat.Plant.Heads;

namespace Stockseat.Cli.Commands;

/// <summary>Where a command reads a ledger: from its folder, from the plant store, or from the running service.</summary>
internal sealed class LedgerFrom
{
    private const string CellName = "--cell";

    private readonly Option<string?> _data = LedgerFolder.Option();
    private readonly Option<bool> _plant = new("--plant") { Description = "reads the plant store instead, with the same verdicts as from the folder" };
    private readonly Option<string?> _ledger = new("--ledger")
    {
        HelpName = "ID", Description = "with --plant: the id of the ledger; without it the one that is being written, of the cell if --cell names one",
    };

    private Option<string?> _cell = new(CellName) { HelpName = "CELL", Description = "with --plant: the cell whose ledger is meant" };
    private readonly PlantOptions _store = new();

    /// <summary>Adds the options to a command; a cell only where it has none of its own.</summary>
    public void AddTo(Command command)
    {
        command.Options.Add(_data);
        command.Options.Add(_plant);
        command.Options.Add(_ledger);
        if (command.Options.OfType<Option<string?>>().FirstOrDefault(o => o.Name == CellName) is { } own)
        {
            _cell = own;
        }
        else
        {
            command.Options.Add(_cell);
            command.Validators.Add(r =>
            {
                if (r.GetValue(_cell) is not null && !r.GetValue(_plant))
                {
                    r.AddError("--cell says which ledger of the plant store is meant; add --plant, or leave it out");
                }
            });
        }

        _store.AddTo(command);
        command.Validators.Add(r =>
        {
            if (r.GetValue(_plant) && r.GetValue(_data) is not null)
            {
                r.AddError("--data reads a folder and --plant the plant store; name only one of them");
            }

            if (r.GetValue(_ledger) is not null && !r.GetValue(_plant))
            {
                r.AddError("--ledger says which ledger of the plant store is meant; add --plant, or leave it out");
            }
        });
    }

    /// <summary>Whether the running service is to be asked.</summary>
    public bool IsService(ParseResult parsed) => parsed.GetValue(_data) is null && !parsed.GetValue(_plant);

    /// <summary>Runs what reads a data folder: the one that was named, or one that is made from the plant store and removed afterwards.</summary>
    public Task<int> Run(ParseResult parsed, Func<string, Task<int>> read, CancellationToken token) => Run(parsed, null, (folder, _) => read(folder), token);

    /// <summary>The same; what is read also takes why the plant store and its cell have different entries, or null.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="minutes">Only what a review of these minutes reads is needed; null: everything is.</param>
    /// <param name="read">Reads the folder.</param>
    /// <param name="token">Ends it.</param>
    public Task<int> Run(ParseResult parsed, ReviewQuestion? minutes, Func<string, string?, Task<int>> read, CancellationToken token) =>
        parsed.GetValue(_data) is { } folder ? read(folder, null)
        : _store.Run(parsed, address => LedgerFolder.Try(async () =>
        {
            var made = Directory.CreateTempSubdirectory("stockseat-plant-");
            try
            {
                return await Copy(parsed, address, minutes, made.FullName, token) is { } ledger ? await read(made.FullName, ledger.Fork) : ExitCodes.Failed;
            }
            finally
            {
                made.Delete(recursive: true);
            }
        }));

    private async Task<StoredLedger?> Copy(ParseResult parsed, PlantAddress address, ReviewQuestion? minutes, string folder, CancellationToken token)
    {
        await using var connection = await PlantConnection.To(address, token);
        var all = await StoredLedgers.All(connection, address, token);
        if (StoredChoice.Of(all, parsed.GetValue(_ledger), parsed.GetValue(_cell), out var fault) is not { } ledger)
        {
            Console.Error.WriteLine(Plain.Text($"the plant store {address.Name}: {fault}"));
            return null;
        }

        if (minutes is null || !await new StoredMinutes(connection, address).Make(ledger, all, minutes, folder, token))
        {
            using var progress = new ProgressLine(TimeProvider.System, always: false);
            await new StoredCopy(connection, address, progress.Tell).Make(ledger, all, folder, token);
        }

        return ledger;
    }
}
