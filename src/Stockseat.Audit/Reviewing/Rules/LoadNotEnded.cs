using Stockseat.Answers.Loading;
using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Reviewing.Rules;

/// <summary>Nests were loaded anew while the load before had raw stock left, or a move of which nobody said whether it was carried out.</summary>
internal sealed class LoadNotEnded : IFindingRule
{
    public IEnumerable<ReviewFinding> Find(ReviewFacts facts) =>
        from loaded in facts.Bodies.OfType<LoadedBody>()
        where loaded.Replaces is not null && (loaded.ReplacedLeft > 0 || loaded.Unfinished is not null)
        select new ReviewFinding(
            FindingRule.LoadNotEnded,
            [loaded.Replaces!.Value, loaded.Serial, .. loaded.Unfinished is { } open ? [open] : (long[])[]], loaded.Fixture,
            $"At {facts.Text.Time(loaded)} {loaded.Fixture} was loaded anew (entry {FindingText.Whole(loaded.Serial)}), and load "
                + $"{FindingText.Whole(loaded.Replaces!.Value)} before it had {FindingText.Count(loaded.ReplacedLeft ?? 0, "nest")} left"
                + (loaded.Unfinished is { } answer ? $"; nobody said whether the move of answer {FindingText.Whole(answer)} was carried out." : "."),
            "What stands in the nests is only what the last person said; pieces of the load before may still be among them.",
            "Have whoever refills the nests look first, and say emptied when they were emptied, and done or dropped after a pause.");
}
