using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Reading;

/// <summary>Looks at a row as it is in the file; false: no more rows are wanted.</summary>
public delegate bool RowLook(in EntryBytes row);
