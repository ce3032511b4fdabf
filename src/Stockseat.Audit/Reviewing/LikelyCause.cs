using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Reviewing;

/// <summary>The first sentence of a review: what most likely happened, from the first finding.</summary>
internal static class LikelyCause
{
    /// <summary>The sentence.</summary>
    /// <param name="facts">What the review knows.</param>
    /// <param name="finding">The finding.</param>
    /// <param name="number">Its number in the list of findings.</param>
    public static string Of(ReviewFacts facts, ReviewFinding finding, int number) => FindingOrder.IsCause(finding)
        ? $"Most likely {Cause(finding.Rule)}{Off(facts, finding)} {Where(facts, finding, number)}."
        : FindingOrder.IsOfTheRecord(finding) ? $"{FindingText.Begun(Cause(finding.Rule))} {Where(facts, finding, number)}."
        : $"Nothing was found that certainly sent the robot to a wrong place; look first at this: {Cause(finding.Rule)} {Where(facts, finding, number)}.";

    private static string Off(ReviewFacts facts, ReviewFinding finding) =>
        finding.MovedMetres is { } moved ? $"; the robot may have been up to {facts.Text.Length(moved)} off"
            : "; how far off the robot may have been is not known";

    private static string Where(ReviewFacts facts, ReviewFinding finding, int number)
    {
        var when = facts.Nearest(finding) is { } at ? $"{facts.Text.Time(at)} on {facts.Text.Date(at)}" : null;
        return $"({string.Join(", ", new[] { $"finding {FindingText.Whole(number)}", finding.Fixture, when }.OfType<string>())})";
    }

    /// <summary>What it means for the robot, after "most likely"; for the others, what was seen.</summary>
    private static string Cause(FindingRule rule) => rule switch
    {
        FindingRule.LedgerNotWhole => "the ledger is not intact, so no other finding can be trusted further than its entries",
        FindingRule.DoesNotFollow => "an entry does not come out the same when it is computed again, so its numbers may be wrong or were changed later",
        FindingRule.ReadBackDiffers => "the controller moved by a number that was not the one it was served",
        FindingRule.BeforeRefill => "the robot used a number for stock that was no longer in the nests",
        FindingRule.OtherLotBetween => "the robot had the diameter of another lot than the one in the nests",
        FindingRule.StatedNotMeasured => "the controller stated a diameter that the stock did not have",
        FindingRule.ShiftJump => "one of two diameters was wrong, since the shift jumped with the same stock",
        FindingRule.FarFromLot => "the stock was measured wrongly, or other stock was in the nests",
        FindingRule.PlaceAboveRaw => "the raw stock was measured wrongly, or the diameter of the place is wrong",
        FindingRule.AdoptionBetween => "numbers of two revisions were mixed, or the new revision describes the fixture wrongly",
        FindingRule.RecheckMissed => "the fixture is not where its revision says, or the robot's tool was moved",
        FindingRule.RefusedAndNoAnswer => "a controller was refused and got no answer afterwards, and may have gone on without one",
        FindingRule.NotConfirmed => "an answer was never confirmed",
        FindingRule.NotCarriedOut => "an answer was confirmed, and nobody said that its move was carried out",
        FindingRule.UnprovenRevision => "answers came from a revision that rechecks had not proven",
        FindingRule.ClockStep => "the clock was set",
        FindingRule.Restart => "the service was started again",
        FindingRule.NearUncertaintyLimit => "the uncertainty of an answer was near its limit",
        FindingRule.Note => "somebody noted something",
        FindingRule.PickedTwice => "the gripper went to a nest that it had emptied already",
        FindingRule.PickedEmpty => "the gripper went to a nest in which nothing stood",
        FindingRule.PlacedIntoFull => "something was set down in a nest that was full",
        FindingRule.LoadNotEnded => "nests were loaded anew although the load before was not finished",
        _ => throw new ArgumentOutOfRangeException(nameof(rule), rule, "no such rule"),
    };
}
