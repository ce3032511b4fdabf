using Stockseat.Answers.Confirm;
using Stockseat.Answers.Done;
using Stockseat.Answers.Locate;
using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Reviewing.Rules;

/// <summary>
/// Answers that were confirmed up to the instant, and of which nobody said, before it or in the minutes after it, that the move went well. Entries of version 1
/// knew no such word.
/// </summary>
internal sealed class NotCarriedOut : IFindingRule
{
    public IEnumerable<ReviewFinding> Find(ReviewFacts facts)
    {
        var done = facts.Bodies.OfType<DoneBody>().Select(d => d.Answer).ToHashSet();
        return
            from served in facts.Served
            where served.Answer.Version > 1 && served.ConfirmedBy <= facts.Review.Then && !done.Contains(served.Answer.Serial)
            group served by (served.Answer.Fixture, served.Answer.Client) into open
            select Of(facts, [.. open]);
    }

    private static ReviewFinding Of(ReviewFacts facts, ServedAnswer[] open)
    {
        var (first, last) = (open[0].Answer, open[^1].Answer);
        long[] serials = [.. open.Select(s => s.Answer.Serial)];
        var what = open.Length == 1
            ? $"At {facts.Text.Time(first)} {FindingText.Controller(first)} was served answer {FindingText.Whole(first.Serial)} for {first.Fixture} (a "
                + $"{first.Purpose} with {facts.Text.Diameter(first)}) and confirmed it (entry {FindingText.Whole(open[0].ConfirmedBy!.Value)}), and "
                + "nobody said that its move was carried out"
            : $"At {facts.Text.Time(first)} to {facts.Text.Time(last)} {FindingText.Controller(first)} was served {open.Length} answers for {first.Fixture} "
                + $"({FindingText.Serials(serials)}) and confirmed them, and nobody said that their moves were carried out";
        return new(
            FindingRule.NotCarriedOut, [.. serials, .. open.Select(s => s.ConfirmedBy!.Value)], first.Fixture,
            $"{what}, up to {RefusedAndNoAnswer.Until(facts)}.{FirstOnes(open)}{Bare(facts, open)}{Never(facts, first)}",
            "The robot had the numbers, and nobody knows how far it came with them: it may have been stopped on the way, or have hit something.",
            "Look at the robot, the gripper and the nest, and ask what happened, before the next pick. Have the program say done after each move that went "
                + "well.");
    }

    private static string FirstOnes(ServedAnswer[] open)
    {
        long[] first = [.. open.Where(s => s.Answer.First).Select(s => s.Answer.Serial)];
        return first.Length == 0 ? ""
            : $" {(first.Length == 1 ? "Answer" : "Answers")} {FindingText.Serials(first)} {(first.Length == 1 ? "was" : "were")} marked first.";
    }

    /// <summary>A confirmation without numbers says only that something arrived.</summary>
    private static string Bare(ReviewFacts facts, ServedAnswer[] open)
    {
        long[] bare = [.. facts.Bodies.OfType<ConfirmationBody>().Where(c => c.Numbers == ConfirmationBody.None && open.Any(s => s.ConfirmedBy == c.Serial))
            .Select(c => c.Serial)];
        return bare.Length == 0 ? ""
            : $" No number was read back ({FindingText.Entries(bare)}): whether the controller holds the numbers that were served is not known.";
    }

    private static string Never(ReviewFacts facts, AnswerBody first) =>
        facts.Of<DoneBody>(first.Fixture).Any(d => d.Client == first.Client) ? ""
            : " It said done of no answer in these minutes: perhaps its program does not know that word.";
}
