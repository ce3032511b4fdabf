using Stockseat.Ledger.Queries;
using Stockseat.Ledger.Seals;
using Microsoft.Data.Sqlite;

namespace Stockseat.Ledger.Verifying;

/// <summary>Holds a ledger against heads of it that were kept outside the machine.</summary>
internal static class AnchorJudge
{
    /// <summary>Judges one anchor.</summary>
    /// <param name="anchor">The anchor.</param>
    /// <param name="connection">The ledger.</param>
    /// <param name="ledger">Its id; null when its first entry does not tell.</param>
    /// <param name="head">Its last serial.</param>
    /// <param name="ring">Keys.</param>
    /// <param name="faults">Takes what is wrong with the ledger.</param>
    /// <param name="findings">Takes what is worth knowing.</param>
    /// <returns>Why the anchor can't be used; null when it can.</returns>
    public static string? Judge(Anchor anchor, SqliteConnection connection, string? ledger, long head, KeyRing ring, FaultList faults, List<string> findings)
    {
        var name = $"the anchor at entry {anchor.Serial}";
        var key = anchor.Key is null ? null : ring.Find(anchor.Key);
        if (key is not null && !anchor.SignedBy(key))
        {
            return $"{name} does not carry the signature of its key {KeyRing.Short(key.Fingerprint)}: it was changed; get it again from where it was kept";
        }

        if (anchor.Signature is not null && key is null)
        {
            findings.Add($"{name} is signed by the key {KeyRing.Short(anchor.Key ?? "")}, which neither the ledger nor --key brought: its signature was not checked");
        }

        if (ledger is not null && anchor.Ledger != ledger)
        {
            faults.Add(head, FaultKinds.OtherLedger, $"{name} is of the ledger {anchor.Ledger}; this is {ledger}: another one was put in its place, or it is another one's anchor");
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
            faults.Add(anchor.Serial, FaultKinds.Fork, $"{name} of {anchor.At} has another hash than that entry: what lies before it was written anew, or an old copy was put back and went on from there");
        }
        else
        {
            findings.Add($"{name} of {anchor.At} holds" + (anchor.Serial < head ? $": what could be cut or exchanged unseen is after it, {head - anchor.Serial} entries" : ""));
        }

        return null;
    }
}
