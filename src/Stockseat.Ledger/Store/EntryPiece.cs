namespace Stockseat.Ledger.Store;

/// <summary>A bounded piece of the ledger.</summary>
/// <param name="Rows">The entries that match.</param>
/// <param name="End">The serial up to which everything was read.</param>
public sealed record EntryPiece(IReadOnlyList<EntryRow> Rows, long End);
