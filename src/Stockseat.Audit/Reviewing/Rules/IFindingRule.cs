using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Reviewing.Rules;

/// <summary>One rule: what it looks for, and what it says about it. Pure.</summary>
internal interface IFindingRule
{
    /// <summary>What it finds, in any order.</summary>
    IEnumerable<ReviewFinding> Find(ReviewFacts facts);
}
