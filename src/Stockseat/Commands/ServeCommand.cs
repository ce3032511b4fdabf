using System.Collections;
using System.CommandLine;
using Serilog;
using Serilog.Events;
using Stockseat.Cli.Output;
using Stockseat.Service.Configuration;
using Stockseat.Service.Hosting;

namespace Stockseat.Cli.Commands;

internal static class ServeCommand
{
    public static Option<string?> Config() => new("--config") { HelpName = "FILE", Description = "the configuration file; without one the defaults hold" };

    public static Command Make()
    {
        var (config, data) = (Config(), Common.Data("the folder of the ledger, over the configuration's"));
        var command = new Command("serve", "runs the service; prints one line 'ready …' when it can answer") { config, data };
        command.SetAction(async (parsed, _) => await Serve(new(parsed.GetValue(config), parsed.GetValue(data))));
        return command;
    }

    /// <summary>The settings; null when the configuration has faults, which are then on stderr.</summary>
    public static Settings? Read(Overrides overrides) => ReadAll(overrides).Settings;

    private static (Settings? Settings, IEnumerable<string> Faults) ReadAll(Overrides overrides)
    {
        var environment = Environment.GetEnvironmentVariables().Cast<DictionaryEntry>().ToDictionary(e => (string)e.Key, e => (string?)e.Value ?? "");
        var reading = SettingsReader.Read(overrides, environment);
        foreach (var fault in reading.Faults)
        {
            Console.Error.WriteLine(Plain.Text(fault));
        }

        return (reading.Settings, reading.Faults);
    }

    private static async Task<int> Serve(Overrides overrides)
    {
        var (settings, faults) = ReadAll(overrides);
        await using var logger = new LoggerConfiguration()
            .MinimumLevel.Information()
            .MinimumLevel.Override("Microsoft", LogEventLevel.Warning)
            .MinimumLevel.Override("Grpc", LogEventLevel.Warning)
            .WriteTo.Console(new AsciiJsonFormatter(), standardErrorFromLevel: LogEventLevel.Verbose)
            .WithWindowsEvents()
            .CreateLogger();
        if (settings is null)
        {
            // On stderr they are already, for people; this is for a Windows service, which has none.
            await using var events = new LoggerConfiguration().WithWindowsEvents().CreateLogger();
            events.Fatal("The configuration has faults: {Faults:l}", string.Join("; ", faults));
            return ExitCodes.Usage;
        }

        try
        {
            await using var service = await RunningService.Start(settings, TimeProvider.System, logger);
            if (await service.Answers)
            {
                await Console.Out.WriteLineAsync($"ready grpc={service.Grpc} line={service.Line}");
                await Console.Out.FlushAsync();
            }

            return await service.WaitAndStop();
        }
        catch (ConfigurationException e)
        {
            Console.Error.WriteLine(Plain.Text(e.Message));
            await using var events = new LoggerConfiguration().WithWindowsEvents().CreateLogger();
            events.Fatal("The configuration has faults: {Faults:l}", e.Message);
            return ExitCodes.Usage;
        }
        catch (Exception e) when (e is IOException or InvalidDataException or NotSupportedException or Microsoft.Data.Sqlite.SqliteException)
        {
            logger.Fatal("The service could not run: {Cause}", e.Message);
            return ExitCodes.Failed;
        }
        catch (Exception e)
        {
            logger.Fatal(e, "The service could not run: {Cause}", e.Message);
            return ExitCodes.Failed;
        }
    }
}
