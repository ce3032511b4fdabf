using Stockseat.Answers.Confirm;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Reviewing.Rules;

/// <summary>
/// A number for stock from before the nests were emptied or refilled was used, or was the last one that the robot had. A place with a stated diameter is left
/// out: it is about the piece in the gripper, not about the stock in the nests.
/// </summary>
internal sealed class BeforeRefill : IFindingRule
{
    private const string Why =
        "The robot had the number of stock that is no longer in the nests: it may have gripped the new stock too high or too low, or hit it on its way in.";

    private const string Next = "Measure the stock that is in the nests, have the controller ask again, and run the first pick at reduced speed, with people "
        + "clear; then find out why the program went on without asking.";

    public IEnumerable<ReviewFinding> Find(ReviewFacts facts)
    {
        var used = Used(facts).ToArray();
        var told = used.SelectMany(f => f.Serials).ToHashSet();
        return [.. Impossible(facts), .. used, .. Last(facts).Where(f => !told.Contains(f.Serials[0]))];
    }

    /// <summary>(a) An answer from a measurement that was void.</summary>
    private static IEnumerable<ReviewFinding> Impossible(ReviewFacts facts) =>
        from served in facts.Served
        let answer = served.Answer
        where answer.Measurement is not null
        let emptied = facts.Emptied(answer.Fixture, answer.Measurement!.Value, answer.Serial).LastOrDefault()
        where emptied is not null
        select new ReviewFinding(
            FindingRule.BeforeRefill, [answer.Measurement!.Value, emptied.Serial, answer.Serial], answer.Fixture,
            $"At {facts.Text.Time(answer)} {FindingText.Controller(answer)} was served answer {FindingText.Whole(answer.Serial)} for {answer.Fixture} from "
                + $"measurement {FindingText.Whole(answer.Measurement!.Value)}, though the nests were emptied or refilled at {facts.Text.Time(emptied)} "
                + $"(entry {FindingText.Whole(emptied.Serial)}): the service never decides that.",
            Why, "Verify and replay the ledger: an entry was changed, or the service failed. " + Next)
        {
            MovedMetres = Moved(facts, answer, emptied, answer.Serial),
        };

    /// <summary>(b) An answer from before the refill was confirmed, that is applied, after it.</summary>
    private static IEnumerable<ReviewFinding> Used(ReviewFacts facts) =>
        from confirmation in facts.Bodies.OfType<ConfirmationBody>()
        let answer = facts.Answer(confirmation.Confirms)
        where answer is null ? confirmation.Purpose != "place" : OfStock(answer)
        let emptied = facts.Emptied(confirmation.Fixture, confirmation.Confirms, confirmation.Serial).FirstOrDefault()
        where emptied is not null
        select new ReviewFinding(
            FindingRule.BeforeRefill, [confirmation.Confirms, emptied.Serial, confirmation.Serial], confirmation.Fixture,
            $"At {facts.Text.Time(confirmation)} {FindingText.Controller(confirmation)} confirmed that it had applied answer "
                + $"{FindingText.Whole(confirmation.Confirms)} ({What(facts, answer)}), though the nests of {confirmation.Fixture} were emptied or refilled at "
                + $"{facts.Text.Time(emptied)} (entry {FindingText.Whole(emptied.Serial)}), after that answer.{Stated(answer)}",
            Why, Next)
        {
            MovedMetres = Moved(facts, answer, emptied, confirmation.Serial),
        };

    /// <summary>(c) At the instant, what a controller had was from before the refill, and nothing had been served to it since.</summary>
    private static IEnumerable<ReviewFinding> Last(ReviewFacts facts) =>
        from answer in Candidates(facts)
        let emptied = facts.Emptied(answer.Fixture, answer.Serial, long.MaxValue).FirstOrDefault(facts.IsBefore)
        where emptied is not null
        && !facts.Of<EntryBody>(answer.Fixture).Any(e => e.Serial > emptied.Serial && e.Client == answer.Client && facts.IsBefore(e) && Asks(e))
        select new ReviewFinding(
            FindingRule.BeforeRefill, [answer.Serial, emptied.Serial], answer.Fixture,
            $"At {facts.Text.Time(facts.Review.At)} the last that {FindingText.Controller(answer)} had for {answer.Fixture} was answer "
                + $"{FindingText.Whole(answer.Serial)} of {facts.Text.Time(answer)} ({What(facts, answer)}), but the nests were emptied or refilled at "
                + $"{facts.Text.Time(emptied)} (entry {FindingText.Whole(emptied.Serial)}) and nothing had been served to it since.{Stated(answer)}",
            Why, Next)
        {
            MovedMetres = Moved(facts, answer, emptied, facts.Review.Then + 1),
        };

    /// <summary>From the old stock to the new one, when the new stock was measured by then.</summary>
    private static double? Moved(ReviewFacts facts, AnswerBody? answer, EmptiedBody emptied, long before) =>
        facts.Measurements.LastOrDefault(m => m.Fixture == emptied.Fixture && m.Serial > emptied.Serial && m.Serial < before) is { } measured
            ? facts.Moves.Between(answer, answer?.Diameter, measured.Diameter) : null;

    /// <summary>
    /// Each controller's last answer before the instant: that of the fixture, and those that were confirmed. A person who only looks confirms nothing; such a
    /// person must not hide a robot, nor be taken for one.
    /// </summary>
    private static IEnumerable<AnswerBody> Candidates(ReviewFacts facts)
    {
        var confirmed = facts.Served.Where(s => s.ConfirmedBy is not null).Select(s => s.Answer.Serial).ToHashSet();
        return facts.Answers.Where(a => OfStock(a) && facts.IsBefore(a)).GroupBy(a => a.Fixture).SelectMany(fixture =>
            fixture.GroupBy(a => a.Client).Select(g => g.Last()).Where(a => a.Serial == fixture.Last().Serial || confirmed.Contains(a.Serial)));
    }

    private static bool OfStock(AnswerBody answer) => answer.Purpose != "place" || answer.Measurement is not null;

    /// <summary>A place with a stated diameter says nothing of the stock in the nests.</summary>
    private static bool Asks(EntryBody entry) => entry is AnswerBody a ? OfStock(a) : entry is RefusalBody { Asked: "locate" or "next", Purpose: not "place" };

    private static string What(ReviewFacts facts, AnswerBody? answer) =>
        answer is null ? "from before these minutes" : $"a {answer.Purpose} with {facts.Text.Diameter(answer)}";

    private static string Stated(AnswerBody? answer) => answer is { Measurement: null }
        ? " Its diameter was stated by the controller, so the ledger does not know whether it belongs to the old stock or to the new." : "";
}
