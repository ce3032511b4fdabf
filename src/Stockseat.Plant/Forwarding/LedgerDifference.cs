using System.Globalization;

namespace Stockseat.Plant.Forwarding;

/// <summary>Where a ledger does not continue what the plant store has: it was rolled back, or copied and continued twice.</summary>
/// <param name="Ledger">The ledger's id.</param>
/// <param name="Serial">The first entry that differs.</param>
/// <param name="Stored">The hash of that entry in the store.</param>
/// <param name="Sent">The hash of that entry here; empty: this ledger does not have it any more.</param>
public sealed record LedgerDifference(Guid Ledger, long Serial, string Stored, string Sent)
{
    /// <summary>In words.</summary>
    public string Text => string.Create(
        CultureInfo.InvariantCulture,
        $"ledger {Ledger} differs from the plant store from entry {Serial} on: {(Sent.Length == 0
            ? "the store has that entry and this ledger does not, so an old copy was put back"
            : Sent == Stored ? "the store has it with another body, so it was changed there"
            : "the store has it with another hash, so an old copy was put back and continued, or the ledger was continued twice")}. "
        + $"Nothing of it is sent from there on; answers go on. Find the right ledger, and compare with stockseat plant status");
}
