using Stockseat.Answers.Adopt;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.State;

namespace Stockseat.Ledger.Writing;

/// <summary>An ask, or the service's own entries, on its way through the writer; it ends when what it led to is on the disk.</summary>
internal sealed class Pending(Ask? ask, Func<Situation, IEnumerable<EntryBody>>? make, Func<Situation, Situation>? folders)
{
    private readonly TaskCompletionSource<AppendOutcome> _done = new(TaskCreationOptions.RunContinuationsAsynchronously);

    public Ask? Ask => ask;

    public Func<Situation, IEnumerable<EntryBody>>? Make => make;

    /// <summary>
    /// What the folders as just read make of the situation, before anything is decided; null: they stay. An adoption that found none leaves it as it is:
    /// a folder may be away for a moment, and whether it is withdrawn is found by looking twice.
    /// </summary>
    public Func<Situation, Situation>? Folders { get; } = ask is AdoptAsk { Denied: null, Folder: { } read } ? s => s.WithFolder(read) : folders;

    /// <summary>Whether it may change that a fixture answers.</summary>
    public bool ConcernsFixtures => Folders is not null || Outcome.Entry is RevisionAdoptedBody or HeldBody or ReleasedBody or RecheckBody { Refuses: true };

    public AppendOutcome Outcome { get; set; }

    /// <summary>When it came, by the clock's counter; of asks alone.</summary>
    public long Came { get; init; }

    /// <summary>Whether it is written after all that waits, and no ask is taken after it.</summary>
    public bool IsLast { get; init; }

    /// <summary>Whether it writes the entries that are due, and none of its own.</summary>
    public bool IsDue { get; private init; }

    /// <summary>Whether it seals what is unsealed.</summary>
    public bool IsSeal { get; private init; }

    /// <summary>Whether it writes what holds.</summary>
    public bool IsSnapshot { get; private init; }

    public Task<AppendOutcome> Task => _done.Task;

    /// <summary>Whether these are the service's first entries, before which nothing is decided.</summary>
    public bool IsStart { get; init; }

    /// <summary>What writes the entries that are due, and none of its own.</summary>
    public static Pending Due() => new(null, _ => [], null) { IsDue = true };

    /// <summary>What seals.</summary>
    public static Pending Seal() => new(null, null, null) { IsSeal = true };

    /// <summary>What writes a snapshot.</summary>
    public static Pending Snapshot() => new(null, null, null) { IsSnapshot = true };

    public void End(AppendOutcome outcome) => _done.SetResult(outcome);
}
