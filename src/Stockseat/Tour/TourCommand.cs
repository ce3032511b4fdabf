using System.CommandLine;
using Stockseat.Cli.Commands;
using Stockseat.Cli.Usage;

namespace Stockseat.Cli.Tour;

internal static class TourCommand
{
    public static Command Make()
    {
        var command = new ShownCommand("tour", "shows the whole job once, step by step, on ports and data of its own, which are thrown away", "tour");
        command.SetAction(async (parsed, _) =>
        {
            var display = DisplayOptions.Of(parsed);
            return await GuidedTour.Run(new(display.Length.Symbol, "UTC", display.Paper.Name), display);
        });
        return command;
    }
}
