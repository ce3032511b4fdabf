namespace Stockseat.Ledger.Writing;

/// <summary>How many asks may wait for the ledger's writer. More are refused: an answer that comes too late is worth nothing.</summary>
public static class AskLimits
{
    /// <summary>Of all clients.</summary>
    public const int All = 8192;

    /// <summary>Of one client.</summary>
    public const int OfOneClient = All / 4;
}
