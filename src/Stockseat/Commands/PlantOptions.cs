using System.CommandLine;
using Stockseat.Cli.Output;
using Stockseat.Plant.Connecting;

namespace Stockseat.Cli.Commands;

/// <summary>Where the plant store is. Each may also stand in the environment: STOCKSEAT_PLANT_CONNECTION and STOCKSEAT_PLANT_PASSWORDFILE.</summary>
internal sealed class PlantOptions
{
    private readonly Option<string?> _connection = new("--connection")
    {
        HelpName = "TEXT", Description = "how to connect to the plant store, such as \"Host=plant-db;Database=plant;Username=cell_4\"",
    };

    private readonly Option<string?> _password = new("--password-file") { HelpName = "FILE", Description = "the file with the password of that login" };

    /// <summary>Adds them to a command.</summary>
    public void AddTo(Command command)
    {
        command.Options.Add(_connection);
        command.Options.Add(_password);
    }

    /// <summary>Runs what needs the store, and says on stderr what went wrong.</summary>
    public async Task<int> Run(ParseResult parsed, Func<PlantAddress, Task<int>> run)
    {
        if (Stated(parsed, _connection, "STOCKSEAT_PLANT_CONNECTION") is not { } connection)
        {
            Console.Error.WriteLine("--connection is missing, and STOCKSEAT_PLANT_CONNECTION is not set; say how to connect to the plant store, such as "
                + "--connection \"Host=plant-db;Database=plant;Username=cell_4\"");
            return ExitCodes.Usage;
        }

        if (PlantAddress.Read(connection, Stated(parsed, _password, "STOCKSEAT_PLANT_PASSWORDFILE"), out var fault) is not { } address)
        {
            Console.Error.WriteLine(Plain.Text($"--connection {fault}"));
            return ExitCodes.Usage;
        }

        try
        {
            return await run(address);
        }
        catch (PlantException e)
        {
            Console.Error.WriteLine(Plain.Text(e.Message));
            return ExitCodes.Failed;
        }
    }

    private static string? Stated(ParseResult parsed, Option<string?> option, string variable) =>
        parsed.GetValue(option) ?? (Environment.GetEnvironmentVariable(variable) is { Length: > 0 } stated ? stated : null);
}
