using System.CommandLine;
using Stockseat.Cli.Output;
using Stockseat.Cli.Usage;
using Stockseat.Fixtures.Planning;

namespace Stockseat.Cli.Commands;

internal static class NestCommands
{
    private const int UsualCount = 10;

    private const string Example = "nest plan --from 60mm --to 100mm --pin 12mm --holes 20mm --vee 90deg";

    public static Command Make() => new ShownCommand("nest", "chooses nests before anything is built", Example) { Plan() };

    private static Command Plan()
    {
        var options = new NestPlanOptions();
        var count = new Option<int>("--count")
        {
            HelpName = "N", Description = "how many nests to print", DefaultValueFactory = _ =>
                UsualCount, CustomParser = r => (int)Common.Whole(r, "count", Candidates.Most),
        };
        var json = Common.Json();
        var command = new ShownCommand(
            "plan", "finds which pins or vees hold a range of diameters, best first", Example,
            "nest plan --from 60mm --to 100mm --pin 12mm --spacing 60mm --pitch 125mm,130mm --gap 2mm");
        options.AddTo(command);
        command.Options.Add(count);
        command.Options.Add(json);
        command.SetAction(parsed =>
        {
            var faults = new List<string>();
            if (options.Read(parsed, faults) is not { } question)
            {
                foreach (var fault in faults)
                {
                    Console.Error.WriteLine(Plain.Text(fault));
                }

                Console.Error.WriteLine("see stockseat nest plan --help");
                return ExitCodes.Usage;
            }

            var planning = NestPlanner.Judge(question, parsed.GetValue(count));
            var shown = Math.Min(parsed.GetValue(count), planning.Judged.Count);
            if (parsed.GetValue(json))
            {
                Json.Line(NestPlanJson.Of(planning, shown));
            }
            else
            {
                NestPlanView.Print(planning, shown, DisplayOptions.Of(parsed).Length);
            }

            return planning.Holding > 0 ? ExitCodes.Done : ExitCodes.Refused;
        });
        return command;
    }
}
