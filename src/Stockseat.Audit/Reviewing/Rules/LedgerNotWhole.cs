using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Reviewing.Rules;

/// <summary>
/// An entry can't be read, the hashes of the entries shown do not fit together, verifying the ledger found faults, or the plant store has other entries.
/// </summary>
internal sealed class LedgerNotWhole : IFindingRule
{
    private const string Why =
        "What the report shows may not be what was served: no other finding, and no number in it, can be trusted further than these entries.";

    private const string Next = "Copy the data folder before you do anything else with it, run stockseat ledger verify with an anchor that was kept "
        + "elsewhere, and rely on the controller's own log until it is known what was changed.";

    private const string WhyTwo = "An old copy of the data folder was put back, two services continued one ledger, or rows were changed: what was served "
        + "then may stand in the other one only.";

    private const string NextTwo = "Copy the data folder before you do anything else with it, find out with stockseat plant status and stockseat plant verify "
        + "from which entry on they differ, and read both ledgers.";

    public IEnumerable<ReviewFinding> Find(ReviewFacts facts)
    {
        foreach (var entry in facts.Review.Entries.Where(e => e.Unreadable is not null))
        {
            yield return new(
                FindingRule.LedgerNotWhole, [entry.Serial], entry.Row.Fixture,
                $"The body of entry {FindingText.Whole(entry.Serial)}, {entry.Row.Kind}, can't be read, or the service would not write it: "
                    + $"{entry.Unreadable}.",
                Why, Next);
        }

        var evidence = facts.Review.Evidence;
        if (evidence.ChainFault is { } fault)
        {
            yield return new(FindingRule.LedgerNotWhole, [], null, $"The hashes of the entries shown do not fit together: {fault}.", Why, Next);
        }

        if (evidence.Plant is { } plant)
        {
            yield return new(FindingRule.LedgerNotWhole, [], null, $"This ledger is not what the plant store has: {plant}.", WhyTwo, NextTwo);
        }

        if (evidence.Whole is { Faults: { Count: > 0 } faults })
        {
            long[] serials = [.. faults.Select(f => f.Serial).Where(s => s > 0).Distinct().Order()];
            var where = faults[0].Serial > 0 ? $"entry {FindingText.Whole(faults[0].Serial)}, " : "";
            yield return new(
                FindingRule.LedgerNotWhole, serials, null,
                $"Verifying the ledger found {FindingText.Count(faults.Count, "fault")}: {where}{faults[0].Kind}, "
                    + $"{faults[0].Text}{(faults.Count > 1 ? $"; and {FindingText.Whole(faults.Count - 1)} more" : "")}.", Why, Next);
        }
    }
}
