using Stockseat.Answers.Adopt;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.State;

namespace Stockseat.Ledger.Writing;

/// <summary>An ask, or the service's own entries, on the way through the writer; it ends when its entries are on the disk.</summary>
internal sealed class Pending(Ask? ask, Func<Situation, IEnumerable<EntryBody>>? make, Func<Situation, Situation>? folders)
{
    private readonly TaskCompletionSource<AppendOutcome> _done = new(TaskCreationOptions.RunContinuationsAsynchronously);

    public Ask? Ask => ask;

    public Func<Situation, IEnumerable<EntryBody>>? Make => make;

    /// <summary>
    /// How the folders that were just read change the situation, before anything is decided; null: they don't. An adoption that finds no folder leaves it as it
    /// is: a folder may be away for a moment, and only a second look finds that it is withdrawn.
    /// </summary>
    public Func<Situation, Situation>? Folders { get; } = ask is AdoptAsk { Denied: null, Folder: { } read } ? s => s.WithFolder(read) : folders;

    /// <summary>Whether it may begin or stop a fixture's answering.</summary>
    public bool ConcernsFixtures => Folders is not null || Outcome.Entry is RevisionAdoptedBody or HeldBody or ReleasedBody or RecheckBody { Refuses: true };

    public AppendOutcome Outcome { get; set; }

    /// <summary>When it came, by the clock's counter; only for asks.</summary>
    public long Came { get; init; }

    /// <summary>Whether it is written after everything that is waiting, and no ask is accepted after it.</summary>
    public bool IsLast { get; init; }

    /// <summary>Whether it only writes entries that are due, and none of its own.</summary>
    public bool IsDue { get; private init; }

    /// <summary>Whether it seals the unsealed entries.</summary>
    public bool IsSeal { get; private init; }

    /// <summary>Whether it writes a snapshot.</summary>
    public bool IsSnapshot { get; private init; }

    public Task<AppendOutcome> Task => _done.Task;

    /// <summary>Whether these are the service's first entries, before which nothing is decided.</summary>
    public bool IsStart { get; init; }

    /// <summary>A request to write the entries that are due, and nothing else.</summary>
    public static Pending Due() => new(null, _ => [], null) { IsDue = true };

    /// <summary>A request to seal.</summary>
    public static Pending Seal() => new(null, null, null) { IsSeal = true };

    /// <summary>A request to write a snapshot.</summary>
    public static Pending Snapshot() => new(null, null, null) { IsSnapshot = true };

    public void End(AppendOutcome outcome) => _done.SetResult(outcome);
}
