using Stockseat.Answers.Done;
using Stockseat.Answers.Entries;
using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Reviewing.Rules;

/// <summary>A pick was carried out at a nest that was stated to have no stock.</summary>
internal sealed class PickedEmpty : IFindingRule
{
    public IEnumerable<ReviewFinding> Find(ReviewFacts facts) =>
        from step in LoadWalk.Of(facts)
        let done = step.Entry as DoneBody
        where done is { Purpose: "pick", Confirmation: not null } && !step.Load.Raw.Contains((done.Nest[1], done.Nest[0]))
            && !step.Load.Moves.ContainsKey((Purpose.Pick, done.Nest[0], done.Nest[1]))
        select new ReviewFinding(
            FindingRule.PickedEmpty, [step.Load.Serial, done.Answer, done.Serial], done.Fixture,
            $"At {facts.Text.Time(done)} the pick of answer {FindingText.Whole(done.Answer)} at nest {done.Nest[0]},{done.Nest[1]} of {done.Fixture} was "
                + $"carried out; load {FindingText.Whole(step.Load.Serial)} has no raw stock in that nest.",
            "The gripper closed on nothing, or the load was not what somebody said.",
            "Look what stands in the nests, and say so with loaded. Ask with next, which gives only nests that have stock.");
}
