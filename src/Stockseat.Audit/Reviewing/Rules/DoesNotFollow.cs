using Stockseat.Audit.Replaying;
using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Reviewing.Rules;

/// <summary>An entry, computed again from its recorded inputs, does not come out the same.</summary>
internal sealed class DoesNotFollow : IFindingRule
{
    /// <summary>How many are listed one by one: more of them have one cause, and the replay lists them all.</summary>
    private const int OneByOne = 5;

    /// <summary>How many values of an entry a sentence names.</summary>
    private const int Fields = 3;

    public IEnumerable<ReviewFinding> Find(ReviewFacts facts)
    {
        var replay = facts.Review.Evidence.Replay;
        foreach (var difference in replay.Differences.Take(OneByOne))
        {
            yield return Of([difference.Serial], facts.Review.Entries.FirstOrDefault(e => e.Serial == difference.Serial)?.Row.Fixture, Said(difference));
        }

        if (replay.Differences.Count > OneByOne || replay.MoreDifferences > 0)
        {
            long[] rest = [.. replay.Differences.Skip(OneByOne).Select(d => d.Serial)];
            yield return Of(
                rest, null, $"{FindingText.Begun(FindingText.Count(rest.Length + replay.MoreDifferences, "more entry", "more entries"))} did not come out the "
                    + "same when computed again.");
        }
    }

    private static ReviewFinding Of(long[] serials, string? fixture, string what) => new(
        FindingRule.DoesNotFollow, serials, fixture, what,
        "The recorded numbers do not follow from the recorded inputs: the entry was changed, or the service decided wrongly.",
        "Have stockseat ledger replay list every value that differs, verify the ledger, and do not run on these numbers until it is known why.");

    private static string Said(ReplayDifference difference)
    {
        var fields = difference.Fields.Take(Fields).Select(f => $"{f.Path} was recorded as {Shown(f.Recorded)} and is now computed as {Shown(f.Recomputed)}");
        var more = difference.Fields.Count > Fields ? $", and {FindingText.Whole(difference.Fields.Count - Fields)} more" : "";
        var text = difference.Text.TrimEnd('.');
        return $"Computed again, {difference.Kind} {FindingText.Whole(difference.Serial)} does not come out the same: "
            + $"{text}{(difference.Fields.Count > 0 ? $" ({string.Join("; ", fields)}{more})" : "")}.";
    }

    private static string Shown(string json) => json.Length == 0 ? "absent" : json;
}
