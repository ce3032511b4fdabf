using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Audit.Reviewing.Rules;
using Stockseat.Audit.Showing;

namespace Stockseat.Audit.Reviewing;

/// <summary>The rules, applied.</summary>
public static class ReviewFindings
{
    private static readonly IFindingRule[] All =
    [
        new LedgerNotWhole(), new DoesNotFollow(), new ReadBackDiffers(), new BeforeRefill(), new OtherLotBetween(), new StatedNotMeasured(), new ShiftJump(),
        new FarFromLot(), new PlaceAboveRaw(), new AdoptionBetween(), new RecheckMissed(), new RefusedAndNoAnswer(), new NotConfirmed(), new NotCarriedOut(),
        new UnprovenRevision(), new ClockSteps(), new Restarts(), new NearUncertaintyLimit(), new Noted(), new PickedTwice(), new PickedEmpty(),
        new PlacedIntoFull(), new LoadNotEnded(),
    ];

    /// <summary>How many findings of one rule are listed one by one.</summary>
    private const int OneByOne = 5;

    /// <summary>
    /// The findings in a review's entries, answers, fixtures and evidence, the most likely cause first; what the adoptions among them changed; lot and diameter
    /// before and after; and the summary in words.
    /// </summary>
    /// <param name="review">The review, without findings and summary.</param>
    /// <param name="display">The unit and the zone of their words.</param>
    public static Review With(Review review, Display display)
    {
        var facts = new ReviewFacts(review, display);
        var all = All.SelectMany(rule => rule.Find(facts)).Select(f => f with { Serials = [.. f.Serials.Distinct().Order()] })
            .Select(f => f with { OnLastAnswer = facts.IsOnLastAnswer(f) });
        ReviewFinding[] findings = [.. FindingOrder.Of(facts, all)];
        ReviewFinding[] few = [.. Few(facts, findings)];
        var headlines = StockHeadlines.Of(facts, few);
        return review with
        {
            Findings = few, Headlines = headlines, Changes = RevisionDifferences.Of(facts, few),
            Summary = ReviewSummary.Of(facts, few, headlines),
        };
    }

    /// <summary>Of many findings of one rule, the first one by one, and the rest as one: nobody reads a hundred of a kind.</summary>
    private static IEnumerable<ReviewFinding> Few(ReviewFacts facts, IReadOnlyList<ReviewFinding> findings)
    {
        var (rules, told) = (findings.ToLookup(f => f.Rule), new Dictionary<FindingRule, int>());
        foreach (var finding in findings)
        {
            var before = told[finding.Rule] = told.GetValueOrDefault(finding.Rule) + 1;
            if (before <= OneByOne || rules[finding.Rule].Count() <= OneByOne + 1)
            {
                yield return finding;
            }
            else if (before == OneByOne + 1)
            {
                yield return Rest(facts, [.. rules[finding.Rule].Skip(OneByOne)]);
            }
        }
    }

    private static ReviewFinding Rest(ReviewFacts facts, IReadOnlyList<ReviewFinding> rest)
    {
        var fixtures = rest.Select(f => f.Fixture).OfType<string>().Distinct().Order(StringComparer.Ordinal).ToList();
        long[] serials = [.. rest.SelectMany(f => f.Serials).Distinct().Order()];
        var shown = facts.Review.Entries.Where(e => serials.Contains(e.Serial)).Select(e => e.At).ToList();
        var when = shown.Count == 0 ? "" : $", from {facts.Text.Time(shown.Min())} to {facts.Text.Time(shown.Max())}";
        var of = fixtures.Count == 0 ? "" : $" of {string.Join(", ", fixtures)}";
        return rest[0] with
        {
            Serials = serials, Fixture = fixtures.Count == 1 ? fixtures[0] : null,
            What = $"{FindingText.Whole(rest.Count)} more of this kind{of}{when}; the first {FindingText.Whole(OneByOne)} have findings of their own.",
        };
    }
}
