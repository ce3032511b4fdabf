using System.Globalization;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Locate;
using Stockseat.Audit.Reviewing.Rules;

namespace Stockseat.Audit.Reviewing;

/// <summary>The summary in words: what went wrong, what the robot last had, what is wrong besides, and what the record is worth.</summary>
internal static class Summing
{
    /// <summary>How many fixtures' last answers are told: a summary is to be read at once, and the report has them all.</summary>
    private const int Fixtures = 3;

    public static IReadOnlyList<string> Up(Minutes minutes, IReadOnlyList<ReviewFinding> findings)
    {
        var first = First(findings);
        string[] sentences = [.. first.Count == 0 ? [Nothing(minutes)] : Wrong(minutes, first), Last(minutes, first), Besides(findings.Except(first)), Worth.Of(minutes.Review)];
        return [.. sentences.Where(s => s.Length > 0)];
    }

    /// <summary>The first finding; when it is of the record itself, also the first that says what went wrong.</summary>
    private static List<ReviewFinding> First(IReadOnlyList<ReviewFinding> findings) =>
        findings.Count == 0 ? [] : IsOfTheRecord(findings[0]) && findings.FirstOrDefault(f => !IsOfTheRecord(f)) is { } other ? [findings[0], other] : [findings[0]];

    private static bool IsOfTheRecord(ReviewFinding finding) => finding.Rule is FindingRule.LedgerNotWhole or FindingRule.DoesNotFollow;

    /// <summary>Whether it alone says no more than where to look.</summary>
    private static bool IsHint(ReviewFinding finding) => finding.Rule >= FindingRule.NotConfirmed;

    private static IEnumerable<string> Wrong(Minutes minutes, List<ReviewFinding> first)
    {
        var date = Date(minutes.Review.At);
        for (var i = 0; i < first.Count; i++)
        {
            var what = first[i].What;
            var sameDay = what.StartsWith("At ", StringComparison.Ordinal) && what.Length > 5 && what[5] == ':';
            var said = i > 0 ? what : sameDay ? $"On {date} a{what[1..]}" : $"Around {minutes.Told.Time(minutes.Review.At)} on {date}: {what}";
            yield return IsHint(first[i]) ? $"Nothing that went wrong for certain is known to the ledger; look first at this. {said}" : said;
        }
    }

    private static string Nothing(Minutes minutes)
    {
        var (review, told) = (minutes.Review, minutes.Told);
        var all = review.Entries.Count + review.LeftOut;
        var stretch = $"from {told.Time(review.From)} to {told.Time(review.To)}{About(review.Question)}";
        var looked = review.LeftOut > 0 ? $"the {Told.Count(review.Entries.Count, "entry", "entries")} nearest to it, of {Told.Whole(all)}" : Told.Count(all, "entry", "entries");
        var unread = minutes.Unread > 0 ? $" {Told.Begun(Told.Count(minutes.Unread, "of them", "of them"))} could not be read." : "";
        return all == 0
            ? $"Around {told.Time(review.At)} on {Date(review.At)} the ledger knows of nothing: it has no entry {stretch}."
            : $"Around {told.Time(review.At)} on {Date(review.At)} nothing was found that went wrong, in {looked} {stretch}.{unread}";
    }

    private static string About(ReviewQuestion question) => (question.Fixture, question.Cell) switch
    {
        ({ } fixture, { } cell) => $", of what concerns fixture {fixture} and cell {cell}",
        ({ } fixture, null) => $", of what concerns fixture {fixture}",
        (null, { } cell) => $", of what concerns cell {cell}",
        _ => "",
    };

    private static string Last(Minutes minutes, List<ReviewFinding> first)
    {
        var about = first.Select(f => f.Fixture).OfType<string>().ToHashSet();
        var served = minutes.Review.Fixtures.Where(f => f.LastAnswer is not null)
            .OrderBy(f => about.Contains(f.Fixture) ? 0 : 1).ThenByDescending(f => f.LastAnswer!.Serial).Select(f => f.LastAnswer!).ToArray();
        string[] never = [.. minutes.Review.Fixtures.Where(f => f.LastAnswer is null).Select(f => f.Fixture)];
        if (served.Length == 0)
        {
            return never.Length == 0 ? "" : $"No answer for {Told.And(never)} from before {minutes.Told.Time(minutes.Review.At)} was found, up to {Told.Whole(EarlierAnswers.LongestBack)} entries back.";
        }

        var more = served.Length > Fixtures ? $"; {Told.Count(served.Length - Fixtures, "more fixture")} had answers too" : "";
        return $"At {minutes.Told.Time(minutes.Review.At)} the last {(served.Length == 1 ? "answer was" : "answers were")}: {string.Join("; ", served.Take(Fixtures).Select(a => Had(minutes, a)))}{more}.";
    }

    private static string Had(Minutes minutes, AnswerBody answer)
    {
        var nest = answer.Nest is [0, 0] ? "" : $" at nest {answer.Nest[0]},{answer.Nest[1]}";
        return $"for {answer.Fixture} answer {Told.Whole(answer.Serial)} of {minutes.Told.Time(answer)} to {Told.Controller(answer)}, a {answer.Purpose}{nest} with {Told.Diameter(answer)}, revision {answer.Revision}, shift {Told.Shift(answer.ShiftBase)}, {Confirmed(minutes, answer)}";
    }

    private static string Confirmed(Minutes minutes, AnswerBody answer)
    {
        var served = minutes.Served.FirstOrDefault(s => s.Answer.Serial == answer.Serial);
        var by = served?.ConfirmedBy ?? minutes.Bodies.OfType<ConfirmationBody>().FirstOrDefault(c => c.Confirms == answer.Serial)?.Serial
            ?? minutes.Review.Fixtures.FirstOrDefault(f => f.LastAnswer?.Serial == answer.Serial)?.LastConfirmedBy;
        return by is { } serial ? $"confirmed by entry {Told.Whole(serial)}"
            : served is null ? "no confirmation found"
            : served.Misread.Count > 0 ? $"not confirmed (a confirmation was refused, entry {Told.Whole(served.Misread[0].Serial)})"
            : "not confirmed";
    }

    private static string Besides(IEnumerable<ReviewFinding> rest)
    {
        var said = rest.GroupBy(f => f.Rule).Select(g =>
        {
            long[] serials = [.. g.SelectMany(f => f.Serials).Distinct().Order()];
            return $"{Briefly(g.Key)}{(g.Count() > 1 ? $", {g.Count()} times" : "")}{(serials.Length > 0 ? $" ({Told.Entries(serials)})" : "")}";
        }).ToArray();
        return said.Length == 0 ? "" : $"Besides: {string.Join("; ", said)}.";
    }

    private static string Briefly(FindingRule rule) => rule switch
    {
        FindingRule.LedgerNotWhole => "the ledger is not whole",
        FindingRule.DoesNotFollow => "an entry does not come out the same when computed again",
        FindingRule.ReadBackDiffers => "a number was read back wrongly",
        FindingRule.BeforeRefill => "a number from before the nests were refilled",
        FindingRule.StatedNotMeasured => "a stated diameter that is not the measured one",
        FindingRule.ShiftJump => "a jump of the shift without word of other stock",
        FindingRule.FarFromLot => "a measurement far from its lot, or readings that disagree",
        FindingRule.AdoptionBetween => "a revision came in force after an answer",
        FindingRule.RecheckMissed => "a master was not where it was predicted",
        FindingRule.RefusedAndNoAnswer => "a controller was refused and got no answer after",
        FindingRule.NotConfirmed => "answers were never confirmed",
        FindingRule.ClockStep => "the clock was set",
        FindingRule.Restart => "the service was started again",
        FindingRule.NearUncertaintyLimit => "an uncertainty near its limit",
        _ => throw new ArgumentOutOfRangeException(nameof(rule), rule, "no such rule"),
    };

    private static string Date(DateTimeOffset at) => at.UtcDateTime.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
