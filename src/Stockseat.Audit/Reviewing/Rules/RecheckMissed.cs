using Stockseat.Answers.Recheck;

namespace Stockseat.Audit.Reviewing.Rules;

/// <summary>A master was not found where the revision predicts it, in the window, or before it and still standing at the instant.</summary>
internal sealed class RecheckMissed : IFindingRule
{
    public IEnumerable<ReviewFinding> Find(Minutes minutes) => minutes.Bodies.OfType<RecheckBody>().Where(r => r.Passed == false)
        .Concat(minutes.Review.Fixtures.Select(f => f.Missed).OfType<RecheckBody>())
        .DistinctBy(r => r.Serial).OrderBy(r => r.Serial)
        .Select(r => Of(minutes, r));

    private static ReviewFinding Of(Minutes minutes, RecheckBody recheck)
    {
        var allowed = recheck.Limit is { } limit ? $"the limit is {Told.Mm(limit)}"
            : recheck.Expected is { } u ? $"U (k = 2) is {Told.Mm(u.Along)} along and {Told.Mm(u.Across)} across"
            : "nothing states how much is allowed";
        return new(
            FindingRule.RecheckMissed, [recheck.Serial], recheck.Fixture,
            $"At {minutes.Told.Time(recheck)} {recheck.By} found a master of {Told.Mm(recheck.Master)} in nest {recheck.Nest[0]},{recheck.Nest[1]} of {recheck.Fixture} {Told.Mm(recheck.Length)} from where revision {recheck.Revision} predicts it ({Told.Mm(recheck.Miss.Along)} along the seat axis, {Told.Mm(recheck.Miss.Across)} across, {Told.Mm(recheck.Miss.OutOfPlan)} out of the plan); {allowed}.",
            $"The fixture does not stand where the revision says, or the robot or its tool was moved: every number of that revision may be off by that much. {(recheck.Refuses ? "Asks were refused from then on." : "Asks were still answered.")}",
            "Look for what was moved, knocked or exchanged since the calibration: fixture, locators, jaws, tool. Calibrate the fixture anew, in the teaching mode at reduced speed, and adopt the new revision before it is used again.");
    }
}
