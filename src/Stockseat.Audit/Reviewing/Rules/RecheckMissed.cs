using Stockseat.Answers.Recheck;
using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Reviewing.Rules;

/// <summary>A master was not found where the revision predicts it, in the window, or before it and still in effect at the instant.</summary>
internal sealed class RecheckMissed : IFindingRule
{
    public IEnumerable<ReviewFinding> Find(ReviewFacts facts) => facts.Bodies.OfType<RecheckBody>().Where(r => r.Passed == false)
        .Concat(facts.Review.Fixtures.Select(f => f.Missed).OfType<RecheckBody>())
        .DistinctBy(r => r.Serial).OrderBy(r => r.Serial)
        .Select(r => Of(facts, r));

    private static ReviewFinding Of(ReviewFacts facts, RecheckBody recheck)
    {
        var allowed = recheck.Limit is { } limit ? $"the limit is {facts.Text.Length(limit)}"
            : recheck.Expected is { } u ? $"U (k = 2) is {facts.Text.Length(u.Along)} along and {facts.Text.Length(u.Across)} across"
            : "no limit is stated";
        return new(
            FindingRule.RecheckMissed, [recheck.Serial], recheck.Fixture,
            $"At {facts.Text.Time(recheck)} {recheck.By} found a master of {facts.Text.Length(recheck.Master)} in nest {recheck.Nest[0]},{recheck.Nest[1]} of "
                + $"{recheck.Fixture} {facts.Text.Length(recheck.Length)} from where revision {recheck.Revision} predicts it "
                + $"({facts.Text.Length(recheck.Miss.Along)} along the seat axis, {facts.Text.Length(recheck.Miss.Across)} across, "
                + $"{facts.Text.Length(recheck.Miss.OutOfPlan)} out of the plan); {allowed}.",
            "The fixture is not where the revision says, or the robot or its tool was moved: every number of that revision may be off by that much. "
                + $"{(recheck.Refuses ? "Asks were refused from then on." : "Asks were still answered.")}",
            "Look for what was moved, knocked or exchanged since the calibration: fixture, locators, jaws, tool. Calibrate the fixture again, in the teaching "
                + "mode at reduced speed, and adopt the new revision before it is used again.")
        {
            MovedMetres = recheck.Length,
        };
    }
}
