using Stockseat.Answers.Done;
using Stockseat.Answers.Entries;
using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Reviewing.Rules;

/// <summary>A pick was carried out at a nest that a pick of the same load had emptied already.</summary>
internal sealed class PickedTwice : IFindingRule
{
    public IEnumerable<ReviewFinding> Find(ReviewFacts facts) =>
        from step in LoadWalk.Of(facts)
        let done = step.Entry as DoneBody
        where done is { Purpose: "pick", Confirmation: not null }
            && step.Load.Moves.TryGetValue((Purpose.Pick, done.Nest[0], done.Nest[1]), out _)
        let before = step.Load.Moves[(Purpose.Pick, done.Nest[0], done.Nest[1])]
        select new ReviewFinding(
            FindingRule.PickedTwice, [step.Load.Serial, before, done.Answer, done.Serial], done.Fixture,
            $"At {facts.Text.Time(done)} the pick of answer {FindingText.Whole(done.Answer)} at nest {done.Nest[0]},{done.Nest[1]} of {done.Fixture} was "
                + $"carried out, and entry {FindingText.Whole(before)} says that the same nest was picked already since load "
                + $"{FindingText.Whole(step.Load.Serial)}; "
                + "nobody said that it was filled again.",
            "The gripper closed on nothing, or on something that nobody had stated.",
            "Look what stands in the nests, and say so with loaded. Ask with next, so that the service keeps count, or say emptied and loaded at each refill.");
}
