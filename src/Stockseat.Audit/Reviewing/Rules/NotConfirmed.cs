using Stockseat.Answers.Locate;
using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Reviewing.Rules;

/// <summary>Answers that no controller confirmed. A wrong read-back has its own rule.</summary>
internal sealed class NotConfirmed : IFindingRule
{
    public IEnumerable<ReviewFinding> Find(ReviewFacts facts) =>
        from served in facts.Served
        where served.ConfirmedBy is null && !served.Misread.Any(ReadBackDiffers.IsIt)
        group served by (served.Answer.Fixture, served.Answer.Client) into unconfirmed
        select Of(facts, [.. unconfirmed]);

    private static ReviewFinding Of(ReviewFacts facts, ServedAnswer[] unconfirmed)
    {
        var answers = unconfirmed.Select(s => s.Answer).ToArray();
        var (first, last) = (answers[0], answers[^1]);
        long[] serials = [.. answers.Select(a => a.Serial)];
        var what = answers.Length == 1
            ? $"At {facts.Text.Time(first)} {FindingText.Controller(first)} was served answer {FindingText.Whole(first.Serial)} for {first.Fixture} (a "
            + $"{first.Purpose} with {facts.Text.Diameter(first)}) and never confirmed it"
            : $"At {facts.Text.Time(first)} to {facts.Text.Time(last)} {FindingText.Controller(first)} was served {answers.Length} answers for "
            + $"{first.Fixture} ({FindingText.Serials(serials)}) and never confirmed them";
        return new(
            FindingRule.NotConfirmed, serials, first.Fixture,
            $"{what}.{FirstOnes(answers)}{Superseded(facts, answers)}{Refused(unconfirmed)}",
            "Whether an answer arrived, and whether the robot moved by it, is not known: it may have moved by an older one.",
            "Look in the controller's log for what it received and used. Have the program confirm each answer with a number read back, before it moves.");
    }

    private static string FirstOnes(AnswerBody[] answers)
    {
        long[] first = [.. answers.Where(a => a.First).Select(a => a.Serial)];
        return first.Length == 0 ? ""
            : answers.Length == 1 ? " It was marked first, to be run at reduced speed, which makes this more important."
            : first.Length == 1 ? $" Answer {FindingText.Serials(first)} was marked first, to be run at reduced speed, which makes this more important."
            : $" Answers {FindingText.Serials(first)} were marked first, to be run at reduced speed, which makes this more important.";
    }

    /// <summary>A newer answer to the same ask of the same controller replaces an answer that it had not confirmed.</summary>
    private static string Superseded(ReviewFacts facts, AnswerBody[] answers)
    {
        var pairs = answers.Select(a => (Old: a, New: facts.Served.Select(s => s.Answer).FirstOrDefault(n =>
            n.Serial > a.Serial && n.Fixture == a.Fixture
                && n.Client == a.Client && n.Purpose == a.Purpose && n.Nest.AsSpan().SequenceEqual(a.Nest)))).Where(p => p.New is not null).ToArray();
        return pairs.Length switch
        {
            0 => "",
            1 => $" Answer {FindingText.Whole(pairs[0].Old.Serial)} was superseded by answer {FindingText.Whole(pairs[0].New!.Serial)}, "
                + $"{FindingText.Span(ReviewFacts.At(pairs[0].New!) - ReviewFacts.At(pairs[0].Old))} later.",
            _ => $" Answers {FindingText.Serials([.. pairs.Select(p => p.Old.Serial)])} were superseded by newer ones.",
        };
    }

    private static string Refused(ServedAnswer[] unconfirmed)
    {
        var refused = unconfirmed.SelectMany(s => s.Misread).Select(r => $"entry {FindingText.Whole(r.Serial)}, {r.Reason}").ToArray();
        return refused.Length == 0 ? ""
            : $" {(refused.Length == 1 ? "A confirmation was" : $"{refused.Length} confirmations were")} refused ({string.Join("; ", refused)}).";
    }
}
