using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;
using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Reviewing.Rules;

/// <summary>
/// A controller was refused an ask and got no further answer for that fixture up to the end of the window. That nothing is left of a load ends a program as it
/// should.
/// </summary>
internal sealed class RefusedAndNoAnswer : IFindingRule
{
    public IEnumerable<ReviewFinding> Find(ReviewFacts facts) =>
        from asks in facts.Bodies.Where(b => b is AnswerBody or RefusalBody { Asked: "locate" or "next", Number: not (int)Reason.LoadEmpty })
            .GroupBy(b => (b.Fixture, b.Client))
        let refusals = asks.Reverse().TakeWhile(b => b is RefusalBody).Cast<RefusalBody>().Reverse().ToArray()
        where refusals.Length > 0
        select Of(facts, refusals);

    private static ReviewFinding Of(ReviewFacts facts, RefusalBody[] refusals)
    {
        var (first, last) = (refusals[0], refusals[^1]);
        var fixture = first.Fixture ?? "no fixture";
        var times = refusals.Length == 1
            ? $"At {facts.Text.Time(first)} {FindingText.Controller(first)} asked for {fixture} and was refused"
            : $"At {facts.Text.Time(first)} {FindingText.Controller(first)} asked for {fixture} and was refused, {refusals.Length} times up to "
            + $"{facts.Text.Time(last)}";
        return new(
            FindingRule.RefusedAndNoAnswer, [.. refusals.Select(r => r.Serial)], first.Fixture,
            $"{times}, {Reasons(refusals)}; it got no answer after that up to {Until(facts)}. {Had(facts, first)}",
            "A refusal carries no numbers. A robot that moved nevertheless used older ones, or none.",
            $"Make sure that the program stops at a refusal and never goes on with the last shift. Then correct the cause: {Advice(last)}.");
    }

    /// <summary>As far as the entries shown go: the window may reach beyond the ledger's last entry, or beyond the most that are shown.</summary>
    internal static string Until(ReviewFacts facts)
    {
        var (review, last) = (facts.Review, facts.Bodies[^1]);
        return last.Serial == review.HeadSerial ? $"{facts.Text.Time(last)}, the ledger's last entry"
            : facts.Text.Time(review.LeftOut > 0 ? ReviewFacts.At(last) : review.To);
    }

    /// <summary>Each reason once, in the order in which they came.</summary>
    private static string Reasons(RefusalBody[] refusals) =>
        FindingText.And(
            [
                .. refusals.GroupBy(r => r.Reason).Select(
                    g => $"because {Because(g.Last())}{(g.Count() > 1 && g.Count() < refusals.Length ? $" ({g.Count()} times)" : "")}"),
            ]);

    private static string Because(RefusalBody refusal) => (Reason)refusal.Number switch
    {
        Reason.FixtureHeld when refusal.Limits?.GetValueOrDefault("held_by") is { } by =>
            $"{by} held it{(refusal.Limits.GetValueOrDefault("since_serial") is { } since ? $" since entry {since}" : "")} ({refusal.Reason})",
        Reason.MeasurementStale when refusal.Limits?.GetValueOrDefault("age_seconds") is { } age =>
            $"its measurement was {age} s old, and {refusal.Limits.GetValueOrDefault("limit_seconds")} s is fresh ({refusal.Reason})",
        Reason.MeasurementMissing => $"it had no valid measurement ({refusal.Reason}: {After(Text(refusal))})",
        _ => $"{Text(refusal)} ({refusal.Reason})",
    };

    /// <summary>The text after the colon says why there was none.</summary>
    private static string After(string text) => text[(text.IndexOf(": ", StringComparison.Ordinal) is var at and >= 0 ? at + 2 : 0)..];

    /// <summary>The text without the advice at its end, since the finding has its own.</summary>
    private static string Text(RefusalBody refusal)
    {
        var advice = $"; {Advice(refusal)}";
        return refusal.Text.EndsWith(advice, StringComparison.Ordinal) ? refusal.Text[..^advice.Length] : refusal.Text.TrimEnd('.');
    }

    private static string Had(ReviewFacts facts, RefusalBody first)
    {
        var older = facts.Answers.Where(a => a.Fixture == first.Fixture && a.Serial < first.Serial).ToArray();
        if ((older.LastOrDefault(a => a.Client == first.Client) ?? older.LastOrDefault()) is not { } had)
        {
            return "No earlier answer is known that it could have used.";
        }

        var whose = had.Client == first.Client ? "" : $" to {FindingText.Controller(had)}";
        var emptied = facts.Emptied(had.Fixture, had.Serial, first.Serial).LastOrDefault();
        return $"The last answer before that it could have used is {FindingText.Whole(had.Serial)} of {facts.Text.Time(had)}{whose}: a {had.Purpose} with "
            + $"{facts.Text.Diameter(had)}, {facts.Text.Shift(had.ShiftBase)}"
            + $"{(emptied is null ? "" : $"; the nests were emptied or refilled since (entry {FindingText.Whole(emptied.Serial)})")}.";
    }

    private static string Advice(RefusalBody refusal) =>
        ReasonInfo.Find(refusal.Reason) is var reason and not Reason.None ? ReasonInfo.Of(reason).Advice : "see its text";
}
