namespace Stockseat.Ledger.Reviewing;

/// <summary>Makes reviews of a ledger.</summary>
public static class LedgerReview
{
    /// <summary>The most entries that a review shows.</summary>
    public const int MostEntries = 2000;

    /// <summary>Reviews the ledger in a folder, running or stopped, and those before it that were closed and are still there.</summary>
    /// <param name="folder">The data folder.</param>
    /// <param name="question">Which minutes.</param>
    /// <param name="verify">Verifies the whole ledger; null: only the entries shown are checked.</param>
    /// <param name="token">Stops it soon.</param>
    public static Review Of(string folder, ReviewQuestion question, Verifying.VerifyOptions? verify, CancellationToken token) => throw new NotImplementedException();
}
