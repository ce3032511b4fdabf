using Stockseat.Answers.Confirm;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;

namespace Stockseat.Audit.Reviewing.Rules;

/// <summary>
/// A number was used, or was the last that the robot had, that is for the stock from before the nests were emptied or refilled. A place whose diameter was stated
/// is of the piece in the gripper, not of the stock in the nests: it is left out.
/// </summary>
internal sealed class BeforeRefill : IFindingRule
{
    private const string Why = "The robot had the number of stock that is no more in the nests: it may have gripped the new stock too high or too low, or have met it on its way in.";

    private const string Next = "Measure the stock that is in the nests, have the controller ask anew, and run the first pick at reduced speed with people clear; then look at why the program went on without asking.";

    public IEnumerable<ReviewFinding> Find(Minutes minutes)
    {
        var used = Used(minutes).ToArray();
        var told = used.SelectMany(f => f.Serials).ToHashSet();
        return [.. Impossible(minutes), .. used, .. Last(minutes).Where(f => !told.Contains(f.Serials[0]))];
    }

    /// <summary>(a) An answer from a measurement that was void.</summary>
    private static IEnumerable<ReviewFinding> Impossible(Minutes minutes) =>
        from served in minutes.Served
        let answer = served.Answer
        where answer.Measurement is not null
        let emptied = minutes.Emptied(answer.Fixture, answer.Measurement!.Value, answer.Serial).LastOrDefault()
        where emptied is not null
        select new ReviewFinding(
            FindingRule.BeforeRefill, [answer.Measurement!.Value, emptied.Serial, answer.Serial], answer.Fixture,
            $"At {minutes.Told.Time(answer)} {Told.Controller(answer)} was served answer {Told.Whole(answer.Serial)} for {answer.Fixture} from measurement {Told.Whole(answer.Measurement!.Value)}, though the nests were emptied or refilled at {minutes.Told.Time(emptied)} (entry {Told.Whole(emptied.Serial)}): the service never decides so.",
            Why, "Verify and replay the ledger: an entry was changed, or the service failed. " + Next);

    /// <summary>(b) An answer from before was confirmed, that is applied, after.</summary>
    private static IEnumerable<ReviewFinding> Used(Minutes minutes) =>
        from confirmation in minutes.Bodies.OfType<ConfirmationBody>()
        let answer = minutes.Answer(confirmation.Confirms)
        where answer is null ? confirmation.Purpose != "place" : OfStock(answer)
        let emptied = minutes.Emptied(confirmation.Fixture, confirmation.Confirms, confirmation.Serial).FirstOrDefault()
        where emptied is not null
        select new ReviewFinding(
            FindingRule.BeforeRefill, [confirmation.Confirms, emptied.Serial, confirmation.Serial], confirmation.Fixture,
            $"At {minutes.Told.Time(confirmation)} {Told.Controller(confirmation)} confirmed that it had applied answer {Told.Whole(confirmation.Confirms)} ({What(answer)}), though the nests of {confirmation.Fixture} were emptied or refilled at {minutes.Told.Time(emptied)} (entry {Told.Whole(emptied.Serial)}), after that answer.{Stated(answer)}",
            Why, Next);

    /// <summary>(c) At the instant, what a controller had was from before, and nothing was served to it since.</summary>
    private static IEnumerable<ReviewFinding> Last(Minutes minutes) =>
        from answer in Candidates(minutes)
        let emptied = minutes.Emptied(answer.Fixture, answer.Serial, long.MaxValue).FirstOrDefault(minutes.IsBefore)
        where emptied is not null && !minutes.Of<EntryBody>(answer.Fixture).Any(e => e.Serial > emptied.Serial && e.Client == answer.Client && minutes.IsBefore(e) && Asks(e))
        select new ReviewFinding(
            FindingRule.BeforeRefill, [answer.Serial, emptied.Serial], answer.Fixture,
            $"At {minutes.Told.Time(minutes.Review.At)} the last that {Told.Controller(answer)} had for {answer.Fixture} was answer {Told.Whole(answer.Serial)} of {minutes.Told.Time(answer)} ({What(answer)}), but the nests were emptied or refilled at {minutes.Told.Time(emptied)} (entry {Told.Whole(emptied.Serial)}) and nothing was served to it since.{Stated(answer)}",
            Why, Next);

    /// <summary>
    /// Each controller's last answer before the instant: that of the fixture, and those that were confirmed. A person who only looks confirms nothing, and must
    /// neither hide a robot nor be taken for one.
    /// </summary>
    private static IEnumerable<AnswerBody> Candidates(Minutes minutes)
    {
        var confirmed = minutes.Served.Where(s => s.ConfirmedBy is not null).Select(s => s.Answer.Serial).ToHashSet();
        return minutes.Answers.Where(a => OfStock(a) && minutes.IsBefore(a)).GroupBy(a => a.Fixture).SelectMany(fixture =>
            fixture.GroupBy(a => a.Client).Select(g => g.Last()).Where(a => a.Serial == fixture.Last().Serial || confirmed.Contains(a.Serial)));
    }

    private static bool OfStock(AnswerBody answer) => answer.Purpose != "place" || answer.Measurement is not null;

    /// <summary>A place with a stated diameter says nothing of the stock in the nests.</summary>
    private static bool Asks(EntryBody entry) => entry is AnswerBody a ? OfStock(a) : entry is RefusalBody { Asked: "locate", Purpose: not "place" };

    private static string What(AnswerBody? answer) => answer is null ? "from before these minutes" : $"a {answer.Purpose} with {Told.Diameter(answer)}";

    private static string Stated(AnswerBody? answer) => answer is { Measurement: null }
        ? " Its diameter was stated by the controller, so the ledger does not know whether it is that of the old stock or of the new." : "";
}
