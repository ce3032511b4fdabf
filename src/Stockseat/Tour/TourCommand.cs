using System.CommandLine;
using Stockseat.Cli.Usage;

namespace Stockseat.Cli.Tour;

internal static class TourCommand
{
    public static Command Make()
    {
        var command = new ShownCommand("tour", "shows the whole job once, step by step; its ports and data are its own and are thrown away", "tour");
        command.SetAction(async (_, _) => await GuidedTour.Run());
        return command;
    }
}
