using Microsoft.Extensions.Logging;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Service.Watching;

/// <summary>Logs, once, what a change of a folder changed.</summary>
internal static class FolderNews
{
    /// <summary>Logs the news.</summary>
    /// <param name="logger">The log.</param>
    /// <param name="fixture">The fixture's name.</param>
    /// <param name="before">Its state before; null when it was not known.</param>
    /// <param name="after">Its state now; null when it is no longer known.</param>
    public static void Tell(ILogger logger, string fixture, FixtureState? before, FixtureState? after)
    {
        if (after is null)
        {
            Log.Gone(logger, fixture);
            return;
        }

        if (before is null)
        {
            Log.New(logger, fixture);
        }

        TellOfFolder(logger, before?.Folder, after.Folder);
        TellOfFiles(logger, before, after);
        TellOfRefusal(logger, fixture, OfFolder(before), OfFolder(after));
    }

    private static void TellOfFolder(ILogger logger, FixtureFolder? before, FixtureFolder? after)
    {
        if (after?.NotRead is { } fault && fault != before?.NotRead)
        {
            Log.NotRead(logger, after.Fixture, fault);
        }

        if (before?.NotRead is not null && after is { NotRead: null })
        {
            Log.ReadAgain(logger, after.Fixture);
        }
    }

    private static void TellOfFiles(ILogger logger, FixtureState? before, FixtureState after)
    {
        foreach (var number in after.Waiting.Where(n => before?.Folder?.Find(n)?.FileHash != after.Folder!.Find(n)!.FileHash))
        {
            Log.Waits(logger, after.Fixture, number);
        }

        var (had, has) = (before?.Folder?.FileFaults.ToHashSet(StringComparer.Ordinal) ?? [], after.Folder?.FileFaults.ToList() ?? []);
        foreach (var fault in has.Where(f => !had.Contains(f)))
        {
            Log.Faulty(logger, after.Fixture, fault);
        }

        if (had.Count > 0 && has.Count == 0 && after.Folder is not null)
        {
            Log.Mended(logger, after.Fixture);
        }
    }

    private static void TellOfRefusal(ILogger logger, string fixture, Refusal? before, Refusal? after)
    {
        if (after?.Reason == before?.Reason)
        {
            return;
        }

        if (before is not null)
        {
            Log.Restored(logger, fixture, before.Info.Name);
        }

        if (after is not null)
        {
            Log.Refused(logger, fixture, after.Info.Name, after.Text);
        }
    }

    /// <summary>
    /// The refusal because of what the folder or the ledger says about its revisions; a hold or a missed recheck is not news about a folder, and hides none.
    /// </summary>
    private static Refusal? OfFolder(FixtureState? state) => state?.RefusedByFolder;
}
