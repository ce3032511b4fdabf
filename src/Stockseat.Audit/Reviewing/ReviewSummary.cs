using Stockseat.Answers.Confirm;
using Stockseat.Answers.Locate;
using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Audit.Reviewing.Rules;
using Stockseat.Audit.Reviewing.Window;

namespace Stockseat.Audit.Reviewing;

/// <summary>
/// The summary in words: what most likely happened, lot and diameter before and after, what the robot last had, and how far the record can be trusted. What
/// else was found stands in the findings, which follow it wherever it is shown.
/// </summary>
internal static class ReviewSummary
{
    /// <summary>How many fixtures' last answers are given: a summary has to be short, and the report has them all.</summary>
    private const int Fixtures = 3;

    public static IReadOnlyList<string> Of(ReviewFacts facts, IReadOnlyList<ReviewFinding> findings, IReadOnlyList<ReviewHeadline> headlines)
    {
        var first = First(findings);
        string[] sentences =
        [
            .. first.Count == 0 ? Nothing(facts) : first.Select(f => LikelyCause.Of(facts, f, Number(findings, f))),
            .. headlines.Take(Fixtures).Select(h => h.Text), Last(facts, first), RecordTrust.Of(facts.Review),
        ];
        return [.. sentences.Where(s => s.Length > 0)];
    }

    /// <summary>The first finding; when it is about the record itself, also the first one about what went wrong.</summary>
    private static List<ReviewFinding> First(IReadOnlyList<ReviewFinding> findings) =>
        findings.Count == 0 ? []
            : FindingOrder.IsOfTheRecord(findings[0]) && findings.FirstOrDefault(f => !FindingOrder.IsOfTheRecord(f)) is { } other ? [findings[0], other]
            : [findings[0]];

    private static int Number(IReadOnlyList<ReviewFinding> findings, ReviewFinding finding) => findings.TakeWhile(f => f != finding).Count() + 1;

    /// <summary>What was looked at, and what it means that nothing was found: this is not said to comfort anybody.</summary>
    private static IEnumerable<string> Nothing(ReviewFacts facts)
    {
        var (review, text) = (facts.Review, facts.Text);
        var all = review.Entries.Count + review.LeftOut;
        var stretch = $"from {text.Time(review.From)} to {text.Time(review.To)}{About(review.Question)}";
        var looked = review.LeftOut > 0 ? $"the {FindingText.Count(review.Entries.Count, "entry", "entries")} nearest to it, of {FindingText.Whole(all)}"
            : FindingText.Count(all, "entry", "entries");
        var unread = facts.Unread > 0 ? $" {FindingText.Begun(FindingText.Count(facts.Unread, "of them", "of them"))} could not be read." : "";
        if (all == 0)
        {
            return [$"Around {text.Time(review.At)} on {text.Date(review.At)} the ledger shows nothing: it has no entry {stretch}."];
        }

        return
        [
            $"Around {text.Time(review.At)} on {text.Date(review.At)} nothing was found that went wrong, in {looked} {stretch}.{unread}",
            "If something did go wrong, its cause is something that the ledger does not know: which stock lay in the nests, what the program did with the "
                + "numbers, the gripper, the tool, the fixture. Compare these with the last answer.",
        ];
    }

    private static string About(ReviewQuestion question) => (question.Fixture, question.Cell) switch
    {
        ({ } fixture, { } cell) => $", of what concerns fixture {fixture} and cell {cell}",
        ({ } fixture, null) => $", of what concerns fixture {fixture}",
        (null, { } cell) => $", of what concerns cell {cell}",
        _ => "",
    };

    private static string Last(ReviewFacts facts, List<ReviewFinding> first)
    {
        var about = first.Select(f => f.Fixture).OfType<string>().ToHashSet();
        var served = facts.Review.Fixtures.Where(f => f.LastAnswer is not null)
            .OrderBy(f => about.Contains(f.Fixture) ? 0 : 1).ThenByDescending(f => f.LastAnswer!.Serial).Select(f => f.LastAnswer!).ToArray();
        string[] never = [.. facts.Review.Fixtures.Where(f => f.LastAnswer is null).Select(f => f.Fixture)];
        if (served.Length == 0)
        {
            return never.Length == 0 ? "" : $"No answer for {FindingText.And(never)} from before {facts.Text.Time(facts.Review.At)} was found, up to "
                + $"{FindingText.Whole(EarlierAnswers.LongestBack)} entries back.";
        }

        var more = served.Length > Fixtures ? $"; {FindingText.Count(served.Length - Fixtures, "more fixture")} had answers too" : "";
        return $"At {facts.Text.Time(facts.Review.At)} the last {(served.Length == 1 ? "answer was" : "answers were")}: "
            + $"{string.Join("; ", served.Take(Fixtures).Select(a => Had(facts, a)))}{more}.";
    }

    private static string Had(ReviewFacts facts, AnswerBody answer)
    {
        var nest = answer.Nest is [0, 0] ? "" : $" at nest {answer.Nest[0]},{answer.Nest[1]}";
        return $"for {answer.Fixture} answer {FindingText.Whole(answer.Serial)} of {facts.Text.Time(answer)} to {FindingText.Controller(answer)}, a "
            + $"{answer.Purpose}{nest} with {facts.Text.Diameter(answer)}, revision {answer.Revision}, shift {facts.Text.Shift(answer.ShiftBase)}, "
            + $"{Confirmed(facts, answer)}";
    }

    private static string Confirmed(ReviewFacts facts, AnswerBody answer)
    {
        var served = facts.Served.FirstOrDefault(s => s.Answer.Serial == answer.Serial);
        var by = served?.ConfirmedBy ?? facts.Bodies.OfType<ConfirmationBody>().FirstOrDefault(c => c.Confirms == answer.Serial)?.Serial
            ?? facts.Review.Fixtures.FirstOrDefault(f => f.LastAnswer?.Serial == answer.Serial)?.LastConfirmedBy;
        return by is { } serial ? $"confirmed by entry {FindingText.Whole(serial)}"
            : served is null ? "no confirmation found"
            : served.Misread.Count > 0 ? $"not confirmed (a confirmation was refused, entry {FindingText.Whole(served.Misread[0].Serial)})"
            : "not confirmed";
    }
}
