using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Tests.Reviewing;

/// <summary>What the tests look for in a review's findings.</summary>
internal static class Found
{
    /// <summary>The only finding of a rule; it is about these entries, in this order.</summary>
    public static ReviewFinding One(this Review review, FindingRule rule, params ReadOnlySpan<long> serials)
    {
        var found = Assert.Single(review.Findings, f => f.Rule == rule);
        Assert.Equal(serials.ToArray(), found.Serials);
        Assert.All((string[])[found.What, found.Why, found.Next], s => Assert.EndsWith(".", s, StringComparison.Ordinal));
        return found;
    }

    /// <summary>The first finding of the review; it is of this rule and about these entries, in this order.</summary>
    public static ReviewFinding First(this Review review, FindingRule rule, params ReadOnlySpan<long> serials)
    {
        Assert.Equal(rule, review.Findings[0].Rule);
        return review.One(rule, serials);
    }

    public static void None(this Review review, FindingRule rule) => Assert.DoesNotContain(review.Findings, f => f.Rule == rule);

    public static void Says(this ReviewFinding finding, params ReadOnlySpan<string> parts)
    {
        foreach (var part in parts)
        {
            Assert.Contains(part, finding.What, StringComparison.Ordinal);
        }
    }
}
