using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Reviewing;

/// <summary>
/// The order of findings, so that the most likely cause is the first. This is the only place that states it:
/// <list type="number">
/// <item>The record itself: a ledger that is not intact, then entries that do not come out the same. No number counts for more than the record.</item>
/// <item>What may have sent the robot to a wrong place: the furthest first, compared to a micrometre. Where it is not known how far, it counts as the jump that
/// the review was asked to look for, 1 mm unless stated: behind what is known to be larger, before what is known to be smaller.</item>
/// <item>What sent it nowhere by itself, in the order of <see cref="FindingRule"/>: a refusal without an answer after it, answers that were not confirmed or
/// not carried out, an unproven revision, the clock, restarts, an uncertainty near its limit, notes, a load that nobody ended.</item>
/// <item>Numbers read back that differ by less than the last digit that was served.</item>
/// </list>
/// Among equals, those come first on which a fixture's last answer before the instant rests, and then those whose entries are nearer to the instant.
/// </summary>
internal static class FindingOrder
{
    /// <summary>Distances are compared to a micrometre: answers are served with no finer one by default.</summary>
    private const int Digits = 6;

    /// <summary>The findings in their order.</summary>
    public static IEnumerable<ReviewFinding> Of(ReviewFacts facts, IEnumerable<ReviewFinding> findings) => findings
        .OrderBy(Group)
        .ThenBy(f => Group(f) == Moving ? 0 : (int)f.Rule)
        .ThenByDescending(f => Metres(facts.Review, f))
        .ThenByDescending(f => f.OnLastAnswer)
        .ThenBy(facts.Distance)
        .ThenBy(f => f.Rule)
        .ThenBy(f => f.Serials.DefaultIfEmpty().Min());

    /// <summary>Whether a finding is about the record itself.</summary>
    public static bool IsOfTheRecord(ReviewFinding finding) => Group(finding) == Record;

    /// <summary>Whether a finding may have sent the robot to a wrong place.</summary>
    public static bool IsCause(ReviewFinding finding) => Group(finding) == Moving;

    private const int Record = 0;

    private const int Moving = 1;

    private static int Group(ReviewFinding finding) => finding switch
    {
        { Rule: FindingRule.LedgerNotWhole or FindingRule.DoesNotFollow } => Record,
        { BelowResolution: true } => 3,
        { Rule: FindingRule.PickedTwice or FindingRule.PickedEmpty or FindingRule.PlacedIntoFull } => Moving,
        { Rule: >= FindingRule.RefusedAndNoAnswer } or { MovedMetres: 0 } => 2,
        _ => Moving,
    };

    private static double Metres(Review review, ReviewFinding finding) =>
        Group(finding) == Moving ? Math.Round(finding.MovedMetres ?? review.Question.JumpMetres, Digits) : 0;
}
