using Microsoft.Extensions.Logging;
using Stockseat.Answers.Reasons;
using Stockseat.Ledger.Writing;
using Stockseat.Service.Configuration;
using Stockseat.Service.Watching;

namespace Stockseat.Service.Hosting;

/// <summary>Writes the service's first entries. On a full disk it tries again and again, each time with the present state of the folders.</summary>
internal sealed class Starting(LedgerWriter writer, Settings settings, BoundedFolders folders, TimeProvider time, ILogger logger)
{
    /// <summary>How long it waits between two attempts.</summary>
    public static readonly TimeSpan RetryAfter = TimeSpan.FromSeconds(1);

    /// <summary>Whether the entries are on the disk: only then is there a start that a stop can follow.</summary>
    public bool IsRecorded { get; private set; }

    /// <summary>One attempt.</summary>
    /// <param name="stop">Ends the wait for folders that hang.</param>
    /// <returns>Whether the service can answer.</returns>
    /// <exception cref="IOException">The entries can't be made, and trying again would not help.</exception>
    public async Task<bool> Try(CancellationToken stop)
    {
        var (read, notListed) = await folders.ReadAll(writer.Situation.Fixtures.Select(f => f.Fixture), stop);
        foreach (var folder in read)
        {
            folder.Prepare(writer.Situation.Find(folder.Fixture)?.InForce?.Number);
        }

        var written = await writer.Append(s => ServiceEntries.AtStart(s, writer, settings.Fixtures.FirstAdoption), read, isStart: true);
        if (written.Refusal is { Reason: not Reason.LedgerUnavailable and not Reason.ShuttingDown } refusal)
        {
            throw new IOException($"the service's start can't be written to the ledger in {settings.Ledger.Data}: {refusal.Text}");
        }

        IsRecorded = written.Refusal is null;
        if (IsRecorded)
        {
            FixturesAtStart.Tell(logger, settings.Fixtures.Folder, writer.Situation, notListed);
        }

        return IsRecorded;
    }

    /// <summary>Keeps trying until it can answer.</summary>
    /// <param name="stop">Ends it.</param>
    /// <returns>Whether it can; false when it was ended, or the writer has.</returns>
    public async Task<bool> GoOn(CancellationToken stop)
    {
        while (!IsRecorded)
        {
            await Task.WhenAny(Task.Delay(RetryAfter, time, stop), writer.Ended);
            if (stop.IsCancellationRequested || writer.Ended.IsCompleted)
            {
                return false;
            }

            try
            {
                await Try(stop);
            }
            catch (OperationCanceledException) when (stop.IsCancellationRequested)
            {
                return false;
            }
        }

        return true;
    }
}
