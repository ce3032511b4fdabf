namespace Stockseat.Service.Pages.Entries;

/// <summary>A page of the ledger.</summary>
/// <param name="Frame">What is around it.</param>
/// <param name="Question">Which entries are wanted.</param>
/// <param name="Zone">The zone of instants.</param>
/// <param name="Last">The last serial of the ledger.</param>
/// <param name="Entries">The entries, the newest first.</param>
/// <param name="Down">The serial down to which the ledger was looked through.</param>
/// <param name="Older">Where older entries are; null: there are none.</param>
public sealed record LedgerModel(
    PageFrame Frame, LedgerQuestion Question, string Zone, long Last, IReadOnlyList<EntryLine> Entries, long Down, string? Older);
