using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Reading;

/// <summary>Looks at a row as it lies in the file; false: no more are wanted.</summary>
public delegate bool RowLook(in EntryBytes row);
