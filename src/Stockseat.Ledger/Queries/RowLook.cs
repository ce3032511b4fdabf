using Stockseat.Ledger.Verifying;

namespace Stockseat.Ledger.Queries;

/// <summary>Looks at a row as it lies in the file; false: no more are wanted.</summary>
internal delegate bool RowLook(in EntryBytes row);
