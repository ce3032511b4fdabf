using System.Globalization;
using System.Text;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Locate;
using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;

namespace Stockseat.Audit.Reviewing.Rules;

/// <summary>Answers whose expanded uncertainty is nearly as large as their revision allows.</summary>
internal sealed class NearUncertaintyLimit : IFindingRule
{
    /// <summary>
    /// The part of the limit from which it is reported: the rest is then less than a larger diameter or a gauge's next service may add. Our own choice.
    /// </summary>
    private const double Part = 0.9;

    public IEnumerable<ReviewFinding> Find(ReviewFacts facts) =>
        from served in facts.Served
        where served.Answer.Uncertainty is not null
        group served.Answer by (served.Answer.Fixture, served.Answer.Revision, served.Answer.Digest) into answers
        let limit = Limit(facts.Review, answers.First())
        where limit is not null
        let near = answers.Where(a => a.Uncertainty!.Largest > Part * limit).ToArray()
        where near.Length > 0
        select Of(facts, near, limit.Value);

    private static ReviewFinding Of(ReviewFacts facts, AnswerBody[] near, double limit)
    {
        var worst = near.MaxBy(a => a.Uncertainty!.Largest)!;
        var percent = Rounded.Short(worst.Uncertainty!.Largest / limit * 100, 0);
        var which = near.Length == 1 ? ""
            : $"the largest of {FindingText.Count(near.Length, "answer")} ({FindingText.Serials([.. near.Select(a => a.Serial)])}) that are near it, ";
        return new(
            FindingRule.NearUncertaintyLimit, [.. near.Select(a => a.Serial)], worst.Fixture,
            $"At {facts.Text.Time(worst)} answer {FindingText.Whole(worst.Serial)} for {worst.Fixture} was served with U (k = 2) of "
                + $"{facts.Text.Length(worst.Uncertainty.Largest)}, {which}{percent} % of the {facts.Text.Length(limit)} that revision "
                + $"{worst.Revision} allows.",
            "The stock may have been nearly as far from where the robot was sent as the revision still allows; any other deviation adds to that.",
            $"See what makes up most of it (stockseat locate {worst.Fixture} --budget), and improve that: a better gauge, or a calibration with more touches.");
    }

    /// <summary>What the revision of an answer allows; null when it sets no limit, or its content is not known here.</summary>
    private static double? Limit(Review review, AnswerBody answer) =>
        review.Adoptions.Concat(review.Entries.Select(e => e.Body).OfType<RevisionAdoptedBody>())
            .LastOrDefault(a => a.Fixture == answer.Fixture && a.Digest == answer.Digest) is { } adopted
            ? RevisionReader.FromContent(Encoding.UTF8.GetBytes(adopted.Content.GetRawText()), $"entry {FindingText.Whole(adopted.Serial)}")
            .Revision?.Limits.UncertaintyMetres
            : null;
}
