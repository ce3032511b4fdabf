namespace Stockseat.Ledger.Writing;

/// <summary>How many asks may wait for the ledger's writer. Further ones are refused: an answer that comes too late is worth nothing.</summary>
public static class AskLimits
{
    /// <summary>The limit for all clients together.</summary>
    public const int All = 8192;

    /// <summary>The limit for one client.</summary>
    public const int OfOneClient = All / 4;
}
