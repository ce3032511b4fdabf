using System.CommandLine;
using System.Text.Json.Nodes;
using Stockseat.Cli.Output;

namespace Stockseat.Cli.Commands;

internal static class SettingsCommand
{
    public static Command Make()
    {
        var (config, data, json) = (ServeCommand.Config(), Common.Data("the folder of the ledger, over the configuration's"), Common.Json());
        var command = new Command("settings", "prints the merged settings, each with its source") { config, data, json };
        command.SetAction(parsed =>
        {
            if (ServeCommand.Read(new(parsed.GetValue(config), parsed.GetValue(data))) is not { } settings)
            {
                return ExitCodes.Usage;
            }

            if (parsed.GetValue(json))
            {
                var all = new JsonObject();
                foreach (var s in settings.Sources)
                {
                    all[s.Key] = new JsonObject { ["value"] = s.Value, ["source"] = s.Source };
                }

                Json.Line(all);
            }
            else
            {
                Plain.Table(["setting", "value", "source"], settings.Sources.Select(s => (IReadOnlyList<string>)[s.Key, s.Value, s.Source]));
            }

            return ExitCodes.Done;
        });
        return command;
    }
}
