namespace Stockseat.Plant.Forwarding;

/// <summary>A ledger has something that the plant store can't hold. It is never skipped: nothing of that ledger is sent from there on.</summary>
internal sealed class UnsendableException(string message, Exception? cause = null) : Exception(message, cause);
