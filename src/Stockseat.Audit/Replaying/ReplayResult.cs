namespace Stockseat.Audit.Replaying;

/// <summary>What a replay found.</summary>
/// <param name="First">The first serial that was replayed; 0 when there was none.</param>
/// <param name="Last">The last one.</param>
/// <param name="Answers">How many answers were computed again.</param>
/// <param name="Refusals">How many refusals.</param>
/// <param name="Others">How many entries of other kinds that follow from their inputs: measurements, confirmations, rechecks and the like.</param>
/// <param name="Same">How many of all these came out bit for bit the same.</param>
/// <param name="Within">How many, written by another version of the program, came out the same within <see cref="LedgerReplay.Tolerance"/>.</param>
/// <param name="Given">How many depend on facts that no ledger holds (who may ask, what the fixtures' folders had, which request ids were remembered), and
/// were taken as recorded.</param>
/// <param name="Differences">Those that did not come out the same, in order; at most <see cref="LedgerReplay.MostDifferences"/>.</param>
/// <param name="MoreDifferences">How many more there are.</param>
/// <param name="Unreadable">What could not be replayed, for example an entry of a version that this program does not know; null when there is nothing.</param>
public sealed record ReplayResult(
    long First, long Last, long Answers, long Refusals, long Others, long Same, long Within, long Given,
    IReadOnlyList<ReplayDifference> Differences, long MoreDifferences, string? Unreadable)
{
    /// <summary>Whether all came out the same.</summary>
    public bool Agrees => Differences.Count == 0 && Unreadable is null;

    /// <summary>0 all the same, 1 some differ, 2 could not be replayed.</summary>
    public int ExitCode => Differences.Count > 0 ? 1 : Unreadable is null ? 0 : 2;
}
