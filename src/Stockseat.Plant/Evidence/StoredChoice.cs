using System.Globalization;
using Stockseat.Plant.Heads;

namespace Stockseat.Plant.Evidence;

/// <summary>Which ledger of the plant store is meant.</summary>
public static class StoredChoice
{
    /// <summary>The one ledger that is meant; null, with the reason, when none or several could be.</summary>
    /// <param name="all">All ledgers of the store.</param>
    /// <param name="ledger">Its id, where it was named.</param>
    /// <param name="cell">Its cell, where that was named: then the ledger is meant that the cell writes now.</param>
    /// <param name="fault">Why it is not clear, and what to do; null: it is clear.</param>
    public static StoredLedger? Of(IReadOnlyList<StoredLedger> all, string? ledger, string? cell, out string? fault)
    {
        if (ledger is not null)
        {
            var named = Guid.TryParse(ledger, out var id) ? all.FirstOrDefault(l => l.Ledger == id) : null;
            fault = named is null ? $"the store has no ledger {ledger}; stockseat plant status lists those that it has" : null;
            return named;
        }

        var open = all.Where(l => !l.Closed && (cell is null || l.Cell == cell)).ToList();
        fault = open.Count switch
        {
            1 => null,
            0 => cell is null ? "the store has no ledger yet" : $"the store has no ledger of cell {cell}; stockseat plant status lists those that it has",
            _ => string.Create(CultureInfo.InvariantCulture, $"{open.Count} ledgers could be meant{(cell is null ? "" : $" for cell {cell}")}: name one with ")
                + (cell is null ? "--cell CELL or --ledger ID" : "--ledger ID") + "; stockseat plant status lists them",
        };
        return fault is null ? open[0] : null;
    }
}
