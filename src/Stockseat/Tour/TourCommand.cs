using System.CommandLine;

namespace Stockseat.Cli.Tour;

internal static class TourCommand
{
    public static Command Make()
    {
        var command = new Command("tour", "the whole job once, on throw-away ports and data, step by step");
        command.SetAction(async (_, _) => await GuidedTour.Run());
        return command;
    }
}
