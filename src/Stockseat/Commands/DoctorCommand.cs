using System.CommandLine;
using Stockseat.Cli.Output;
using Stockseat.Cli.Output.Shapes;
using Stockseat.Cli.Usage;
using Stockseat.Service.Examining;

namespace Stockseat.Cli.Commands;

/// <summary>Looks at everything that the service needs around it.</summary>
internal static class DoctorCommand
{
    public static Command Make()
    {
        var (config, data, json) = (ServeCommand.Config(), Common.Data("the folder of the ledger, instead of the one in the configuration"), Common.Json());
        var command = new ShownCommand(
            "doctor", "looks at everything that the service needs around it, and says what is wrong; exit code 1 when something is",
            "doctor --config config/stockseat.json")
        { config, data, json };
        command.SetAction(parsed =>
        {
            var file = parsed.GetValue(config);
            if (ServeCommand.Read(new(file, parsed.GetValue(data), Display: DisplayOptions.Stated(parsed))) is not { } settings)
            {
                return ExitCodes.Usage;
            }

            List<Finding> found = [Finding.Good("configuration", file is null ? "the defaults, since no file is named with --config" : $"{file} has no faults"),
                .. Examination.Of(settings, file, TimeProvider.System)];
            Print(found, parsed.GetValue(json));
            return found.Max(f => f.Outcome) switch
            {
                Outcome.Unchecked => ExitCodes.Failed,
                Outcome.Fault => ExitCodes.Refused,
                _ => ExitCodes.Done,
            };
        });
        return command;
    }

    private static void Print(List<Finding> found, bool json)
    {
        if (json)
        {
            found.ForEach(f => Json.Line(new ExaminedShape(Word(f.Outcome), f.About, f.Text)));
            return;
        }

        Plain.Table(["result", "about", "found"], found.Select(f => (IReadOnlyList<string>)[Word(f.Outcome), f.About, f.Text]));
        Plain.Line(Sum(found));
    }

    private static string Sum(List<Finding> found)
    {
        var (faults, advice, @unchecked) = (Count(Outcome.Fault), Count(Outcome.Advice), Count(Outcome.Unchecked));
        return (faults, advice, @unchecked) == (0, 0, 0)
            ? "nothing is wrong"
            : $"{faults} wrong, {advice} to look at, {@unchecked} not checked";

        int Count(Outcome outcome) => found.Count(f => f.Outcome == outcome);
    }

    private static string Word(Outcome outcome) => outcome switch
    {
        Outcome.Good => "good",
        Outcome.Advice => "advice",
        Outcome.Fault => "wrong",
        _ => "unchecked",
    };
}
