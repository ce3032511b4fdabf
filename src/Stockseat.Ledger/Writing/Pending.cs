using Stockseat.Answers.Deciding;
using Stockseat.Answers.Records;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Ledger.Writing;

/// <summary>An ask, or the service's own entries, on its way through the writer; it ends when what it led to is on the disk.</summary>
internal sealed class Pending(Ask? ask, Func<Situation, IEnumerable<EntryBody>>? make, IReadOnlyList<FixtureFolder>? folders)
{
    private readonly TaskCompletionSource<AppendOutcome> _done = new(TaskCreationOptions.RunContinuationsAsynchronously);

    public Ask? Ask => ask;

    public Func<Situation, IEnumerable<EntryBody>>? Make => make;

    public IReadOnlyList<FixtureFolder>? Folders => folders;

    public AppendOutcome Outcome { get; set; }

    /// <summary>Whether it only wakes the writer.</summary>
    public bool IsNothing => ask is null && make is null;

    public Task<AppendOutcome> Task => _done.Task;

    /// <summary>What only wakes the writer.</summary>
    public static Pending Nothing() => new(null, null, null);

    public void End(AppendOutcome outcome) => _done.SetResult(outcome);
}
