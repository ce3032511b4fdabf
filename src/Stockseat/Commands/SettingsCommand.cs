using System.CommandLine;
using Stockseat.Cli.Output;
using Stockseat.Cli.Output.Shapes;
using Stockseat.Cli.Usage;
using Stockseat.Service.Configuration;
using Stockseat.Service.Lines.Forms;
using Stockseat.Service.Texts;

namespace Stockseat.Cli.Commands;

internal static class SettingsCommand
{
    public static Command Make()
    {
        var (config, data, json) = (ServeCommand.Config(), Common.Data("the folder of the ledger, instead of the one in the configuration"), Common.Json());
        var form = new Option<string?>("--form") { HelpName = "NAME", Description = "prints sample replies, as a client with this form gets them" };
        var command = new ShownCommand(
            "settings", "prints the settings in effect, each with its source", "settings --config config/stockseat.json",
            "settings --config config/stockseat.json --form short")
        { config, data, form, json };
        command.SetAction(parsed =>
        {
            if (ServeCommand.Read(new(parsed.GetValue(config), parsed.GetValue(data), Display: DisplayOptions.Stated(parsed))) is not { } settings)
            {
                return ExitCodes.Usage;
            }

            if (parsed.GetValue(form) is { } name)
            {
                return Sample(settings, name, parsed.GetValue(json));
            }

            Print(settings, parsed.GetValue(json));
            return ExitCodes.Done;
        });
        return command;
    }

    private static void Print(Settings settings, bool json)
    {
        if (!json)
        {
            Plain.Table(["setting", "value", "source"], settings.Sources.Select(s => (IReadOnlyList<string>)[s.Key, s.Value, s.Source]));
            foreach (var advice in CallerAdvice.Of(settings))
            {
                Plain.Line(advice);
            }

            return;
        }

        Json.Line(settings.Sources.ToDictionary(s => s.Key, s => new SettingShape(s.Value, s.Source)));
    }

    private static int Sample(Settings settings, string name, bool json)
    {
        if (!settings.Forms.TryGetValue(name, out var form))
        {
            Console.Error.WriteLine(
                Plain.Text(
                    $"there is no form '{name}'; name one of {string.Join(", ", settings.Forms.Keys.Order(StringComparer.Ordinal))}, or add it to Forms in "
                        + $"the configuration{NearestWord.Hint(name, settings.Forms.Keys)}"));
            return ExitCodes.Usage;
        }

        var sample = FormSample.Of(form);
        if (json)
        {
            Json.Line(new FormShape(name, sample.Answer, sample.Done, sample.Refused, sample.Advice));
            return ExitCodes.Done;
        }

        foreach (var line in (string[])[sample.Answer, sample.Done, sample.Refused, .. sample.Advice])
        {
            Plain.Line(line);
        }

        return ExitCodes.Done;
    }
}
