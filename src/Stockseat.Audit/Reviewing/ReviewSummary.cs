using Stockseat.Answers.Confirm;
using Stockseat.Answers.Locate;
using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Audit.Reviewing.Rules;
using Stockseat.Audit.Reviewing.Window;

namespace Stockseat.Audit.Reviewing;

/// <summary>The summary in words: what went wrong, what the robot last had, what else is wrong, and how far the record can be trusted.</summary>
internal static class ReviewSummary
{
    /// <summary>How many fixtures' last answers are given: a summary has to be short, and the report has them all.</summary>
    private const int Fixtures = 3;

    public static IReadOnlyList<string> Of(ReviewFacts facts, IReadOnlyList<ReviewFinding> findings)
    {
        var first = First(findings);
        string[] sentences =
            [.. first.Count == 0 ? [Nothing(facts)] : Wrong(facts, first), Last(facts, first), Besides(findings.Except(first)), RecordTrust.Of(facts.Review)];
        return [.. sentences.Where(s => s.Length > 0)];
    }

    /// <summary>The first finding; when it is about the record itself, also the first one about what went wrong.</summary>
    private static List<ReviewFinding> First(IReadOnlyList<ReviewFinding> findings) =>
        findings.Count == 0 ? []
            : IsOfTheRecord(findings[0]) && findings.FirstOrDefault(f => !IsOfTheRecord(f)) is { } other ? [findings[0], other] : [findings[0]];

    private static bool IsOfTheRecord(ReviewFinding finding) => finding.Rule is FindingRule.LedgerNotWhole or FindingRule.DoesNotFollow;

    /// <summary>Whether it says only where to look, not that something went wrong.</summary>
    private static bool IsHint(ReviewFinding finding) => finding.Rule >= FindingRule.NotConfirmed;

    private static IEnumerable<string> Wrong(ReviewFacts facts, List<ReviewFinding> first)
    {
        var date = facts.Text.Date(facts.Review.At);
        for (var i = 0; i < first.Count; i++)
        {
            var what = first[i].What;
            var sameDay = what.StartsWith("At ", StringComparison.Ordinal) && what.Length > 5 && what[5] == ':';
            var said = i > 0 ? what : sameDay ? $"On {date} a{what[1..]}" : $"Around {facts.Text.Time(facts.Review.At)} on {date}: {what}";
            yield return IsHint(first[i]) ? $"The ledger shows nothing that certainly went wrong; look at this first. {said}" : said;
        }
    }

    private static string Nothing(ReviewFacts facts)
    {
        var (review, text) = (facts.Review, facts.Text);
        var all = review.Entries.Count + review.LeftOut;
        var stretch = $"from {text.Time(review.From)} to {text.Time(review.To)}{About(review.Question)}";
        var looked = review.LeftOut > 0 ? $"the {FindingText.Count(review.Entries.Count, "entry", "entries")} nearest to it, of {FindingText.Whole(all)}"
            : FindingText.Count(all, "entry", "entries");
        var unread = facts.Unread > 0 ? $" {FindingText.Begun(FindingText.Count(facts.Unread, "of them", "of them"))} could not be read." : "";
        return all == 0
            ? $"Around {text.Time(review.At)} on {text.Date(review.At)} the ledger shows nothing: it has no entry {stretch}."
            : $"Around {text.Time(review.At)} on {text.Date(review.At)} nothing was found that went wrong, in {looked} {stretch}.{unread}";
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

    private static string Besides(IEnumerable<ReviewFinding> rest)
    {
        var said = rest.GroupBy(f => f.Rule).Select(g =>
        {
            long[] serials = [.. g.SelectMany(f => f.Serials).Distinct().Order()];
            return $"{Briefly(g.Key)}{(g.Count() > 1 ? $", {g.Count()} times" : "")}{(serials.Length > 0 ? $" ({FindingText.Entries(serials)})" : "")}";
        }).ToArray();
        return said.Length == 0 ? "" : $"Besides: {string.Join("; ", said)}.";
    }

    private static string Briefly(FindingRule rule) => rule switch
    {
        FindingRule.LedgerNotWhole => "the ledger is not intact",
        FindingRule.DoesNotFollow => "an entry does not come out the same when computed again",
        FindingRule.ReadBackDiffers => "a number was read back wrongly",
        FindingRule.BeforeRefill => "a number from before the nests were refilled",
        FindingRule.OtherLotBetween => "another lot was measured and the nests were not reported as emptied",
        FindingRule.StatedNotMeasured => "a stated diameter that is not the measured one",
        FindingRule.ShiftJump => "a jump of the shift though no other stock was reported",
        FindingRule.FarFromLot => "a measurement far from its lot, or readings that disagree",
        FindingRule.PlaceAboveRaw => "a place with a diameter above that of the raw stock was refused",
        FindingRule.AdoptionBetween => "a revision came into force after an answer",
        FindingRule.RecheckMissed => "a master was not where it was predicted",
        FindingRule.RefusedAndNoAnswer => "a controller was refused and got no answer afterwards",
        FindingRule.NotConfirmed => "answers were never confirmed",
        FindingRule.NotCarriedOut => "answers were confirmed and not carried out",
        FindingRule.UnprovenRevision => "answers from a revision that rechecks had not proven",
        FindingRule.ClockStep => "the clock was set",
        FindingRule.Restart => "the service was started again",
        FindingRule.NearUncertaintyLimit => "an uncertainty near its limit",
        FindingRule.Note => "somebody noted something",
        _ => throw new ArgumentOutOfRangeException(nameof(rule), rule, "no such rule"),
    };
}
