using Stockseat.Ledger.Reviewing.Rules;

namespace Stockseat.Ledger.Reviewing;

/// <summary>The rules, applied.</summary>
public static class ReviewFindings
{
    private static readonly IFindingRule[] All =
    [
        new LedgerNotWhole(), new DoesNotFollow(), new ReadBackDiffers(), new BeforeRefill(), new StatedNotMeasured(), new ShiftJump(), new FarFromLot(),
        new AdoptionBetween(), new RecheckMissed(), new RefusedAndNoAnswer(), new NotConfirmed(), new ClockSteps(), new Restarts(), new NearUncertaintyLimit(),
    ];

    /// <summary>What a review's entries, answers, fixtures and evidence give to find, the weightiest first; and the summary in words.</summary>
    /// <param name="review">The review, without findings and summary.</param>
    public static Review With(Review review)
    {
        var minutes = new Minutes(Sound.Only(review));
        ReviewFinding[] findings =
        [
            .. All.SelectMany(rule => rule.Find(minutes))
                .Select(f => f with { Serials = [.. f.Serials.Distinct().Order()] })
                .OrderBy(f => f.Rule).ThenBy(minutes.Distance).ThenBy(f => f.Serials.DefaultIfEmpty().Min()),
        ];
        return review with { Findings = findings, Summary = Summing.Up(minutes, findings) };
    }
}
