using System.CommandLine;
using Stockseat.Cli.Tour;

namespace Stockseat.Cli.Commands;

internal static class TourCommand
{
    public static Command Make()
    {
        var command = new Command("tour", "the whole job once, on throw-away ports and data, step by step");
        command.SetAction(async (_, _) => await GuidedTour.Run());
        return command;
    }
}
