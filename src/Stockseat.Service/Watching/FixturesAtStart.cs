using Microsoft.Extensions.Logging;
using Stockseat.Answers.State;

namespace Stockseat.Service.Watching;

/// <summary>Logs at a start what keeps fixtures from answering.</summary>
internal static class FixturesAtStart
{
    /// <param name="logger">The log.</param>
    /// <param name="folder">The folder of the fixtures' folders.</param>
    /// <param name="situation">What is in force after the first entries.</param>
    /// <param name="notListed">Why the folder could not be listed; null: it was.</param>
    public static void Tell(ILogger logger, string folder, Situation situation, string? notListed)
    {
        if (notListed is not null)
        {
            Log.NotListedAtStart(logger, folder, notListed);
        }

        foreach (var state in situation.Fixtures)
        {
            if (state.Folder?.NotRead is { } notRead)
            {
                Log.NotReadAtStart(logger, state.Fixture, notRead);
            }

            foreach (var fault in state.Folder?.FileFaults ?? [])
            {
                Log.FaultyAtStart(logger, state.Fixture, fault);
            }

            if (state.Refused is { } refused)
            {
                Log.RefusedAtStart(logger, state.Fixture, refused.Info.Name, refused.Text);
            }
        }

        if (!situation.Fixtures.Any())
        {
            Log.NoFixtures(logger, folder);
        }
    }
}
