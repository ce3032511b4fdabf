namespace Stockseat.Ledger.Store;

/// <summary>
/// The ledger's file has tables, indexes, triggers or views that are not those of the service. A start fails; a service that was already writing waits until
/// they are gone.
/// </summary>
/// <param name="message">Which they are, and what to do.</param>
internal sealed class ForeignTablesException(string message) : IOException(message);
