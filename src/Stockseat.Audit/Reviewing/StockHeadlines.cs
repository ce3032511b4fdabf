using Stockseat.Answers.Locate;
using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Reviewing;

/// <summary>Lot and diameter before and after, for each fixture that was answered for before the instant.</summary>
internal static class StockHeadlines
{
    /// <summary>Those of the first finding's fixture first, then the fixtures with the newest answers.</summary>
    /// <param name="facts">What the review knows.</param>
    /// <param name="findings">The findings, the most likely cause first.</param>
    public static IReadOnlyList<ReviewHeadline> Of(ReviewFacts facts, IReadOnlyList<ReviewFinding> findings)
    {
        var first = findings.FirstOrDefault(f => f.Fixture is not null);
        return
        [
            .. facts.Review.Fixtures.Select(f => f.LastAnswer).OfType<AnswerBody>()
                .OrderByDescending(a => a.Fixture == first?.Fixture).ThenByDescending(a => a.Serial)
                .Select(last => (first is { } f && f.Fixture == last.Fixture ? Around(facts, f) : null) ?? LastTwo(facts, last)),
        ];
    }

    /// <summary>Before and after the change that the finding is about; null when it is about none.</summary>
    private static ReviewHeadline? Around(ReviewFacts facts, ReviewFinding finding)
    {
        if (finding.Rule is not (FindingRule.OtherLotBetween or FindingRule.ShiftJump or FindingRule.AdoptionBetween))
        {
            return null;
        }

        var answers = finding.Serials.Select(facts.Answer).OfType<AnswerBody>().ToArray();
        return answers.Length switch
        {
            0 => null,
            1 => Made(facts, answers[0], null),
            _ => Made(facts, answers[0], answers[^1]),
        };
    }

    private static ReviewHeadline LastTwo(ReviewFacts facts, AnswerBody last) =>
        Made(facts, facts.Answers.LastOrDefault(a => a.Fixture == last.Fixture && a.Purpose == last.Purpose && a.Serial < last.Serial), last);

    private static ReviewHeadline Made(ReviewFacts facts, AnswerBody? before, AnswerBody? after)
    {
        var (was, now) = (StockAnswered.Of(before), StockAnswered.Of(after));
        var fixture = (after ?? before)!.Fixture!;
        return new(fixture, was, now, $"{fixture}: {Text(facts, was, now, (after ?? before)!.Purpose)}.");
    }

    private static string Text(ReviewFacts facts, StockAnswered? was, StockAnswered? now, string purpose) => (was, now) switch
    {
        ({ } b, null) => $"before, {Stock(facts, b)} for a {purpose} by answer {FindingText.Whole(b.Serial)}; after, nothing was asked",
        (null, { } a) => $"{Stock(facts, a)} for a {purpose} by answer {FindingText.Whole(a.Serial)}; no {purpose} before it is known here",
        ({ } b, { } a) when b.Lot == a.Lot && facts.Text.Length(b.DiameterMetres) == facts.Text.Length(a.DiameterMetres) =>
            $"{Stock(facts, a)} for a {purpose}, before (answer {FindingText.Whole(b.Serial)}) and after (answer {FindingText.Whole(a.Serial)}) the same",
        ({ } b, { } a) => $"before, {Stock(facts, b)} for a {purpose} by answer {FindingText.Whole(b.Serial)}; after, {Stock(facts, a)} by answer "
            + $"{FindingText.Whole(a.Serial)}",
        _ => "",
    };

    private static string Stock(ReviewFacts facts, StockAnswered stock) =>
        $"{(stock.Lot is null ? "no lot named" : $"lot {stock.Lot}")}, {facts.Text.Length(stock.DiameterMetres)}";
}
