namespace Stockseat.Ledger.Store;

/// <summary>A bounded piece of the ledger.</summary>
/// <param name="Rows">The entries that were wanted.</param>
/// <param name="End">The serial up to which all was looked at.</param>
public sealed record EntryPiece(IReadOnlyList<EntryRow> Rows, long End);
