using Microsoft.Data.Sqlite;
using Stockseat.Answers.Roll;
using Stockseat.Ledger.Seals;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Verifying;

/// <summary>Compares a ledger with anchors that were kept outside the machine.</summary>
internal static class AnchorJudge
{
    /// <summary>Checks one anchor.</summary>
    /// <param name="anchor">The anchor.</param>
    /// <param name="connection">The ledger.</param>
    /// <param name="ledger">Its id; null when its first entry does not have one.</param>
    /// <param name="head">Its last serial.</param>
    /// <param name="last">The last serial of all ledgers: that of the current one.</param>
    /// <param name="ring">The known keys.</param>
    /// <param name="faults">Faults of the ledger are added here.</param>
    /// <param name="findings">Other findings are added here.</param>
    /// <returns>Why the anchor can't be used; null when it can.</returns>
    public static string? Judge(Anchor anchor, SqliteConnection connection, string? ledger, long head, long last, KeyRing ring, FaultList faults,
        List<string> findings)
    {
        var name = $"the anchor at entry {anchor.Serial}";
        var key = anchor.Key is null ? null : ring.Find(anchor.Key);
        if (key is not null && !anchor.SignedBy(key))
        {
            return $"{name} is not signed by its key {KeyRing.Short(key.Fingerprint)}: it was changed; get it again from where it was kept";
        }

        if (anchor.Signature is not null && key is null)
        {
            findings.Add(
                $"{name} is signed by the key {KeyRing.Short(anchor.Key ?? "")}, which is neither in the ledger nor given with --key: its signature was "
                    + "not checked");
        }

        if (ledger is not null && anchor.Ledger != ledger)
        {
            faults.Add(head, FaultKinds.OtherLedger,
                $"{name} belongs to ledger {anchor.Ledger}, but this is ledger {ledger}: another ledger was put in its place, or the anchor is of another one");
            return null;
        }

        if (anchor.Serial > head)
        {
            faults.Add(head, FaultKinds.Cut, $"{name} of {anchor.At} is beyond the last entry {head}: the tail was cut off, or an old copy was put back");
            return null;
        }

        var hash = LedgerQueries.HashOf(connection, anchor.Serial);
        if (hash is null)
        {
            faults.Add(anchor.Serial, FaultKinds.Cut, $"{name} of {anchor.At} names an entry that is missing");
        }
        else if (!string.Equals(Convert.ToHexStringLower(hash), anchor.Hash, StringComparison.OrdinalIgnoreCase))
        {
            faults.Add(anchor.Serial, FaultKinds.Fork,
                $"{name} of {anchor.At} has another hash than that entry: earlier entries were rewritten, or an old copy was put back and continued from "
                + $"there");
        }
        else
        {
            findings.Add($"{name} of {anchor.At} holds"
                + (anchor.Serial < last
                ? $": only the {last - anchor.Serial} {(last - anchor.Serial == 1 ? "entry" : "entries")} after it could be cut or replaced unnoticed" : ""));
        }

        return null;
    }

    /// <summary>Checks an anchor of a ledger that may have been moved away, by what the first entry of this ledger says about the one before it.</summary>
    /// <param name="anchor">The anchor.</param>
    /// <param name="follows">The ledger before this one.</param>
    /// <param name="first">This ledger's first serial.</param>
    /// <param name="faults">Faults are added here.</param>
    /// <param name="findings">Other findings are added here.</param>
    /// <returns>Why the anchor can't be compared with anything here; null when it was, or when it is of no such ledger.</returns>
    public static string? JudgeAway(Anchor anchor, FollowedLedger follows, long first, FaultList faults, List<string> findings)
    {
        var name = $"the anchor at entry {anchor.Serial}";
        if (follows.Ledger == anchor.Ledger && anchor.Serial >= follows.Last)
        {
            if (anchor.Serial > follows.Last)
            {
                faults.Add(first, FaultKinds.Cut,
                    $"{name} of {anchor.At} is beyond entry {follows.Last}, with which its ledger is said to have ended: its tail was cut off, or an old "
                    + $"copy was put back, before it rolled over");
            }
            else if (string.Equals(follows.Hash, anchor.Hash, StringComparison.OrdinalIgnoreCase))
            {
                findings.Add($"{name} of {anchor.At} is the end of the ledger that this one continues, and holds");
            }
            else
            {
                faults.Add(first, FaultKinds.Fork, $"{name} of {anchor.At} has another hash than the entry that this ledger says it continues");
            }

            return null;
        }

        return anchor.Serial < first
            ? $"{name} is of the ledger {anchor.Ledger}, which is not in {ClosedLedgers.Folder}, and this one begins with entry {first}: if that ledger was "
                + $"moved away, put it back, or check the anchor against it where it is now"
            : null;
    }
}
