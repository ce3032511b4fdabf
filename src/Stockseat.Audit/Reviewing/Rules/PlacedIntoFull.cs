using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Reviewing.Rules;

/// <summary>A place was answered for a nest in which something stood, and the controller received the answer.</summary>
internal sealed class PlacedIntoFull : IFindingRule
{
    public IEnumerable<ReviewFinding> Find(ReviewFacts facts)
    {
        var received = facts.Served.Where(s => s.ConfirmedBy is not null).Select(s => s.Answer.Serial).ToHashSet();
        return
            from step in LoadWalk.Of(facts)
            let answer = step.Entry as AnswerBody
            where answer is { Purpose: "place" } && received.Contains(answer.Serial)
            let nest = (answer.Nest[1], answer.Nest[0])
            let raw = step.Load.Raw.Contains(nest)
            where raw || step.Load.Placed.Contains(nest)
            select new ReviewFinding(
                FindingRule.PlacedIntoFull, [step.Load.Serial, answer.Serial], answer.Fixture,
                $"At {facts.Text.Time(answer)} {FindingText.Controller(answer)} was served answer {FindingText.Whole(answer.Serial)}, a place at nest "
                    + $"{answer.Nest[0]},{answer.Nest[1]} of {answer.Fixture}, and received it; "
                    + (raw ? $"load {FindingText.Whole(step.Load.Serial)} still had raw stock there." : "something had been placed there already."),
                "What the gripper held may have been pressed onto what stood there.",
                "Look at the nest, the gripper and both pieces. Ask with next for a place, which gives only empty nests.");
    }
}
