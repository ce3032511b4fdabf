using System.CommandLine;
using Serilog;
using Serilog.Events;
using Stockseat.Cli.Output;
using Stockseat.Cli.Usage;
using Stockseat.Service.Configuration;
using Stockseat.Service.Hosting;

namespace Stockseat.Cli.Commands;

internal static class ServeCommand
{
    public static Option<string?> Config() => new("--config") { HelpName = "FILE", Description = "the configuration file; without it the defaults apply" };

    public static Command Make()
    {
        var (config, data) = (Config(), Common.Data("the folder of the ledger, instead of the one in the configuration"));
        var command = new ShownCommand(
            "serve", "runs the service; prints one line, 'ready …', as soon as it can answer", "serve --config config/stockseat.json") { config, data };
        command.SetAction(async (parsed, _) => await Serve(new(parsed.GetValue(config), parsed.GetValue(data), Display: DisplayOptions.Stated(parsed))));
        return command;
    }

    /// <summary>The settings of a command that has no more than a configuration file; null when it has faults, which are then on stderr.</summary>
    public static Settings? Read(ParseResult parsed, Option<string?> config) => Read(new(parsed.GetValue(config), Display: DisplayOptions.Stated(parsed)));

    /// <summary>The settings; null when the configuration has faults, which are then on stderr.</summary>
    public static Settings? Read(Overrides overrides)
    {
        var reading = ReadAll(overrides);
        foreach (var fault in reading.Faults)
        {
            Console.Error.WriteLine(Plain.Text(fault));
        }

        return reading.Settings;
    }

    private static SettingsReading ReadAll(Overrides overrides) => SettingsReader.Read(overrides, DisplayOptions.Environment());

    private static async Task<int> Serve(Overrides overrides)
    {
        StandardError.Detach();
        var reading = ReadAll(overrides);
        if (reading.Settings is not { } settings)
        {
            return await Refuse(reading.Faults);
        }

        var format = new AsciiJsonFormatter(Journal.IsStandardError);
        await using var log = new ServiceLog(TimeProvider.System, to => to.Console(format, standardErrorFromLevel: LogEventLevel.Verbose));
        var logger = log.Logger;
        try
        {
            await using var service = await RunningService.Start(settings, TimeProvider.System, logger, log.Drops);
            if (await service.Answers)
            {
                await Patient.Line(
                    Console.Out, $"ready grpc={service.Grpc} line={service.Line}{(service.LineTls is { } lines ? $" line-tls={lines}" : "")}"
                        + $"{(service.Page is { } page ? $" page={page}" : "")}");
            }

            return await service.WaitAndStop();
        }
        catch (ConfigurationException e)
        {
            return await Refuse([e.Message]);
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

    /// <summary>Says what is wrong with the configuration: on stderr, and for a Windows service, which has no stderr, in the event log.</summary>
    private static async Task<int> Refuse(IReadOnlyList<string> faults)
    {
        await Patient.Line(Console.Error, string.Join(Environment.NewLine, faults.Select(f => Journal.Fault + Plain.Text(f))));
        await using var events = new ServiceLog(TimeProvider.System, to: null);
        events.Logger.Fatal("The configuration has faults: {Faults:l}", string.Join("; ", faults));
        return ExitCodes.Usage;
    }
}
