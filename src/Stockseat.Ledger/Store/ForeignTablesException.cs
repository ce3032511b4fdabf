namespace Stockseat.Ledger.Store;

/// <summary>
/// The ledger's file has tables, indexes, triggers or views that are not the service's. A start ends with it; a service that wrote it before waits until
/// they are gone.
/// </summary>
/// <param name="message">Which, and what to do.</param>
internal sealed class ForeignTablesException(string message) : IOException(message);
