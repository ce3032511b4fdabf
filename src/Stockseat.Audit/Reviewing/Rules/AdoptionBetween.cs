using Stockseat.Answers.Adopt;
using Stockseat.Answers.Locate;
using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Reviewing.Rules;

/// <summary>
/// Another revision came into force between two answers for its fixture, or after the last one before the instant. One with the same values changes nothing.
/// </summary>
internal sealed class AdoptionBetween : IFindingRule
{
    /// <summary>Two diameters this close count as the same: a micrometre, the resolution of served answers.</summary>
    private const double SameDiameter = 1e-6;

    public IEnumerable<ReviewFinding> Find(ReviewFacts facts)
    {
        foreach (var group in facts.Bodies.OfType<RevisionAdoptedBody>().GroupBy(a => (a.Fixture, Last(facts, a)?.Serial)))
        {
            // Without an answer before it, it is the fixture's first revision, or it made no served number out of date.
            if (Last(facts, group.First()) is not { } before)
            {
                continue;
            }

            var adopted = group.ToArray();
            var moved = facts.Moves.Between(before, adopted[^1]);
            var passed = adopted.Where(facts.IsBefore).ToArray();
            var after = facts.Answers.FirstOrDefault(a => a.Fixture == before.Fixture && a.Serial > adopted[^1].Serial);
            if (passed.Length > 0 && passed[^1].Digest != before.Digest && (after is null || !facts.IsBefore(after)))
            {
                yield return Outdated(facts, before, passed, after) with { MovedMetres = facts.Moves.Between(before, passed[^1]) };
            }
            else if (after is not null && adopted[^1].Digest != before.Digest)
            {
                yield return Between(facts, before, adopted, after) with { MovedMetres = moved };
            }
        }
    }

    private static AnswerBody? Last(ReviewFacts facts, RevisionAdoptedBody adopted) =>
        facts.Answers.LastOrDefault(a => a.Fixture == adopted.Fixture && a.Serial < adopted.Serial);

    private static ReviewFinding Outdated(ReviewFacts facts, AnswerBody before, RevisionAdoptedBody[] adopted, AnswerBody? after) => new(
        FindingRule.AdoptionBetween, [before.Serial, .. adopted.Select(a => a.Serial)], before.Fixture,
        $"{Brought(facts, adopted)}, after answer {FindingText.Whole(before.Serial)} of revision {before.Revision} to {FindingText.Controller(before)}, "
            + $"the last before {facts.Text.Time(facts.Review.At)}.{Earlier(facts, adopted)}{Moved(facts, before, adopted, after)}",
        "What the robot had at that instant was from a revision that was no longer in force: the fixture may have been moved by then, or described "
            + "wrongly before.",
        "Have the controller ask again after every adoption, and run that first answer at reduced speed, with people clear. This review lists "
            + "what it changed; ask who adopted it why. Printed tables of the older one are void.");

    private static ReviewFinding Between(ReviewFacts facts, AnswerBody before, RevisionAdoptedBody[] adopted, AnswerBody after) => new(
        FindingRule.AdoptionBetween, [before.Serial, .. adopted.Select(a => a.Serial), after.Serial], before.Fixture,
        $"{Brought(facts, adopted)}, between answer {FindingText.Whole(before.Serial)} of revision {before.Revision} and answer "
            + $"{FindingText.Whole(after.Serial)} of revision {after.Revision}.{Earlier(facts, adopted)}{Moved(facts, before, adopted, after)}",
        "From then on the robot was sent to another place for the same stock; a number from before must not be mixed with it.",
        "Make sure that the answer after it was run at reduced speed, with people clear, and that nothing still uses a number or a printed table of the "
            + "revision "
            + "before. This review lists what it changed.");

    private static string Brought(ReviewFacts facts, RevisionAdoptedBody[] adopted) => adopted[^1] is var last
        ? $"At {facts.Text.Time(last)} {last.By} put revision {last.Revision} of {last.Fixture} into force (entry {FindingText.Whole(last.Serial)}: {last.Why})"
        : "";

    /// <summary>The adoptions before the last one: two people may have adopted, one after the other.</summary>
    private static string Earlier(ReviewFacts facts, RevisionAdoptedBody[] adopted) => adopted.Length == 1 ? ""
        : $" Before that {FindingText.And(
            [
                .. adopted.SkipLast(1).Select(
                    a => $"{a.By} put revision {a.Revision} into force at {facts.Text.Time(a)} (entry {FindingText.Whole(a.Serial)}: {a.Why})"),
            ])}.";

    /// <summary>How far the answer to the same ask moved, where it was answered before and after; otherwise how far it would be computed to move.</summary>
    private static string Moved(ReviewFacts facts, AnswerBody before, RevisionAdoptedBody[] adopted, AnswerBody? after) =>
        after is not null && Answered(facts, adopted, after) is { Length: > 0 } answered ? answered
        : facts.Moves.Between(before, adopted[^1]) is { } moved
        ? $" Asked again after it, answer {FindingText.Whole(before.Serial)} would be {facts.Text.Length(moved)} from where it was." : "";

    private static string Answered(ReviewFacts facts, RevisionAdoptedBody[] adopted, AnswerBody after)
    {
        var pairs =
            from b in facts.Answers
            where b.Fixture == after.Fixture && b.Serial < adopted[0].Serial
            from a in facts.Answers
            where a.Fixture == b.Fixture && a.Serial > adopted[^1].Serial && a.Digest == adopted[^1].Digest
                && a.Purpose == b.Purpose && a.Nest.AsSpan().SequenceEqual(b.Nest) && Math.Abs(a.Diameter - b.Diameter) <= SameDiameter
            orderby b.Serial descending, a.Serial
            select (Before: b, After: a);
        if (pairs.FirstOrDefault() is not { Before: { } was, After: { } now })
        {
            return "";
        }

        // The taught origin may differ too, and then the position moves by something else than the shift.
        var (shift, position) = (facts.Text.Length(Distance(was.ShiftBase, now.ShiftBase)), facts.Text.Length(Distance(was.Position, now.Position)));
        var moved = shift == position ? $"the shift moved by {shift}" : $"the shift moved by {shift} and the position by {position}";
        return $" For a {now.Purpose} at nest {now.Nest[0]},{now.Nest[1]} with {facts.Text.Length(now.Diameter)} {moved} (answers "
            + $"{FindingText.Whole(was.Serial)} and {FindingText.Whole(now.Serial)}).";
    }

    private static double Distance(double[] one, double[] other) => Math.Sqrt(one.Zip(other, (a, b) => (a - b) * (a - b)).Sum());
}
