using Microsoft.Data.Sqlite;
using Stockseat.Answers.Roll;
using Stockseat.Ledger.Seals;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Verifying;

/// <summary>Holds a ledger against heads of it that were kept outside the machine.</summary>
internal static class AnchorJudge
{
    /// <summary>Judges one anchor.</summary>
    /// <param name="anchor">The anchor.</param>
    /// <param name="connection">The ledger.</param>
    /// <param name="ledger">Its id; null when its first entry does not tell.</param>
    /// <param name="head">Its last serial.</param>
    /// <param name="last">The last serial of all: that of the ledger that is written.</param>
    /// <param name="ring">Keys.</param>
    /// <param name="faults">Takes what is wrong with the ledger.</param>
    /// <param name="findings">Takes what is worth knowing.</param>
    /// <returns>Why the anchor can't be used; null when it can.</returns>
    public static string? Judge(Anchor anchor, SqliteConnection connection, string? ledger, long head, long last, KeyRing ring, FaultList faults,
        List<string> findings)
    {
        var name = $"the anchor at entry {anchor.Serial}";
        var key = anchor.Key is null ? null : ring.Find(anchor.Key);
        if (key is not null && !anchor.SignedBy(key))
        {
            return $"{name} does not carry the signature of its key {KeyRing.Short(key.Fingerprint)}: it was changed; get it again from where it was kept";
        }

        if (anchor.Signature is not null && key is null)
        {
            findings.Add(
                $"{name} is signed by the key {KeyRing.Short(anchor.Key ?? "")}, which neither the ledger nor --key brought: its signature was not checked");
        }

        if (ledger is not null && anchor.Ledger != ledger)
        {
            faults.Add(head, FaultKinds.OtherLedger,
                $"{name} is of the ledger {anchor.Ledger}; this is {ledger}: another one was put in its place, or it is another one's anchor");
            return null;
        }

        if (anchor.Serial > head)
        {
            faults.Add(head, FaultKinds.Cut, $"{name} of {anchor.At} is beyond the last entry {head}: the tail was cut off, or an old copy put back");
            return null;
        }

        var hash = LedgerQueries.HashOf(connection, anchor.Serial);
        if (hash is null)
        {
            faults.Add(anchor.Serial, FaultKinds.Cut, $"{name} of {anchor.At} names an entry that is not there");
        }
        else if (!string.Equals(Convert.ToHexStringLower(hash), anchor.Hash, StringComparison.OrdinalIgnoreCase))
        {
            faults.Add(anchor.Serial, FaultKinds.Fork,
                $"{name} of {anchor.At} has another hash than that entry: what lies before it was written anew, or an old copy was put back and went on from "
                + $"there");
        }
        else
        {
            findings.Add($"{name} of {anchor.At} holds"
                + (anchor.Serial < last
                ? $": what could be cut or exchanged unseen is after it, {last - anchor.Serial} {(last - anchor.Serial == 1 ? "entry" : "entries")}" : ""));
        }

        return null;
    }

    /// <summary>Judges an anchor of a ledger that may be one that was moved away, by what this one's beginning says of the last of them.</summary>
    /// <param name="anchor">The anchor.</param>
    /// <param name="follows">The ledger before this one.</param>
    /// <param name="first">This ledger's first serial.</param>
    /// <param name="faults">Takes what is wrong.</param>
    /// <param name="findings">Takes what is worth knowing.</param>
    /// <returns>Why the anchor can't be held against anything here; null when it was, or is of no such ledger.</returns>
    public static string? JudgeAway(Anchor anchor, FollowedLedger follows, long first, FaultList faults, List<string> findings)
    {
        var name = $"the anchor at entry {anchor.Serial}";
        if (follows.Ledger == anchor.Ledger && anchor.Serial >= follows.Last)
        {
            if (anchor.Serial > follows.Last)
            {
                faults.Add(first, FaultKinds.Cut,
                    $"{name} of {anchor.At} is beyond entry {follows.Last}, with which its ledger is said to have ended: its tail was cut off, or an old "
                    + $"copy put back, before it rolled over");
            }
            else if (string.Equals(follows.Hash, anchor.Hash, StringComparison.OrdinalIgnoreCase))
            {
                findings.Add($"{name} of {anchor.At} is the end of the ledger that this one goes on after, and holds");
            }
            else
            {
                faults.Add(first, FaultKinds.Fork, $"{name} of {anchor.At} has another hash than the entry that this ledger says it goes on after");
            }

            return null;
        }

        return anchor.Serial < first
            ? $"{name} is of the ledger {anchor.Ledger}, which is not in {ClosedLedgers.Folder}, and this one begins with entry {first}: if that ledger was "
                + $"moved away, put it back, or hold the anchor against it where it is now"
            : null;
    }
}
