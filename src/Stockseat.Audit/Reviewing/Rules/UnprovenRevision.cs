using Stockseat.Answers.Locate;
using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Reviewing.Rules;

/// <summary>
/// The last answer of the minutes before the instant came from a revision that rechecks had not proven by then. Rechecks of version 1 proved nothing, so its
/// answers are left out.
/// </summary>
internal sealed class UnprovenRevision : IFindingRule
{
    public IEnumerable<ReviewFinding> Find(ReviewFacts facts) =>
        from fixture in facts.Review.Fixtures
        where fixture is { Unproven.Count: > 0, Adopted: not null }
        let answers = facts.Served.Select(s => s.Answer).Where(a => a.Fixture == fixture.Fixture && a.Version > 1 && facts.IsBefore(a)).ToArray()
        where answers.Length > 0 && answers[^1].Digest == fixture.Adopted!.Digest
        select Of(facts, fixture, answers[^1]);

    private static ReviewFinding Of(ReviewFacts facts, FixtureThen fixture, AnswerBody last) => new(
        FindingRule.UnprovenRevision, [fixture.Adopted!.Serial, last.Serial], fixture.Fixture,
        $"At {facts.Text.Time(last)} {FindingText.Controller(last)} was served answer {FindingText.Whole(last.Serial)} for {last.Fixture} (a "
            + $"{last.Purpose} with {facts.Text.Diameter(last)}) from revision {last.Revision} (entry {FindingText.Whole(fixture.Adopted.Serial)}), which "
            + $"rechecks had not proven by {facts.Text.Time(facts.Review.At)}; still lacking was: "
            + $"{string.Join("; ", fixture.Unproven.Select(facts.Text.Lack))}.",
        "A flipped axis, a wrong taught diameter, a wrong spacing or swapped counts show only when a master is found where the revision predicts it: without "
            + "that the robot may be sent to a wrong place, above all far from the taught diameter and in the far nests.",
        $"Prove the revision: seat those masters, find them with the robot at reduced speed, and say where they are (stockseat fixture recheck "
            + $"{fixture.Fixture}).");
}
