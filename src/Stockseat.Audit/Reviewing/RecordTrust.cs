using Stockseat.Audit.Replaying;
using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Ledger.Verifying;

namespace Stockseat.Audit.Reviewing;

/// <summary>How far a review's record can be trusted, in a sentence.</summary>
internal static class RecordTrust
{
    public static string Of(Review review)
    {
        var evidence = review.Evidence;
        var chain = evidence.ChainFault is null ? "the hashes of the entries shown fit together" : "the hashes of the entries shown do not fit together";
        var left = review.LeftOut > 0 ? $" {FindingText.Begun(FindingText.Count(review.LeftOut, "more entry", "more entries"))} of these minutes "
            + $"{(review.LeftOut == 1 ? "is" : "are")} not shown." : "";
        return $"How far this record can be trusted: {chain}, {Whole(evidence.Whole)}, and {Replayed(evidence.Replay)}."
            + (evidence.Plant is null ? "" : " The plant store has something else than this ledger.") + left;
    }

    private static string Whole(Verification? whole) => whole switch
    {
        null => "the whole ledger was not verified",
        { Faults.Count: > 0 } w => $"verifying the whole ledger found {FindingText.Count(w.Faults.Count, "fault")}",
        { Unreadable: { } why } => $"the whole ledger could not be verified ({why.TrimEnd('.')})",
        _ => $"the whole ledger ({FindingText.Count(whole.Entries, "entry", "entries")}) was verified without a fault{Sealed(whole)}",
    };

    private static string Sealed(Verification whole) => whole.Seals is { } seals ? $" and is sealed up to entry {FindingText.Whole(seals.Sealed)}"
        : " and has no seal, so somebody who can write it could have forged it";

    private static string Replayed(ReplayResult replay)
    {
        var differ = replay.Differences.Count + replay.MoreDifferences;
        var all = replay.Answers + replay.Refusals + replay.Others;
        var unreadable = replay.Unreadable is { } why ? $"; some could not be computed again ({why.TrimEnd('.')})" : "";
        var said = differ > 0 ? $"{FindingText.Count(differ, "entry", "entries")} did not come out the same when computed again"
            : all == 1 ? "the one entry that follows from others came out the same when computed again"
            : all > 0 ? $"all {FindingText.Whole(all)} entries that follow from others came out the same when computed again"
            : "there was nothing to compute again";
        return said + unreadable;
    }
}
