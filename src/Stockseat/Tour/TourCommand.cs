using System.CommandLine;
using Stockseat.Cli.Commands;

namespace Stockseat.Cli.Tour;

internal static class TourCommand
{
    public static Command Make()
    {
        var command = new Command("tour", "the whole job once, on throw-away ports and data, step by step");
        command.SetAction(async (parsed, _) =>
        {
            var display = DisplayOptions.Of(parsed);
            return await GuidedTour.Run(new(display.Length.Symbol, "UTC", display.Paper.Name), display);
        });
        return command;
    }
}
