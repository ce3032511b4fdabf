using System.Globalization;
using Stockseat.Answers.Events;
using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Seating.Quantities;

namespace Stockseat.Audit.Reviewing.Rules;

/// <summary>The clock of the machine was set.</summary>
internal sealed class ClockSteps : IFindingRule
{
    public IEnumerable<ReviewFinding> Find(ReviewFacts facts) => facts.Bodies.OfType<ClockStepBody>().Select(s => Of(facts, s));

    private static ReviewFinding Of(ReviewFacts facts, ClockStepBody step)
    {
        var by = Rounded.Short(Math.Abs(step.Seconds), 3);
        var what = step.AtStart ? $"a start found the clock {by} s behind the last entry before it"
            : $"the clock was set {(step.Seconds < 0 ? "back" : "forward")} by {by} s";
        return new(
            FindingRule.ClockStep, [step.Serial], null,
            $"At {facts.Text.Time(step)} {what} (entry {FindingText.Whole(step.Serial)}).",
            step.Seconds < 0
                ? "Times before and after it can't be compared: go by the order of the serials. No measurement from before it is used any more, since its "
                + "age is not known."
                : "Times before and after it can't be compared: go by the order of the serials.",
            "Find out who or what set the clock, and by how much the controller's own log differs from these times; make sure that the machine gets its time "
                + "from "
                + "one source.");
    }
}
