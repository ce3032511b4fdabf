using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using static Stockseat.Audit.Explaining.Steps;

namespace Stockseat.Audit.Explaining;

/// <summary>The end of every refusal: its reason and its text.</summary>
internal static class RefusedSection
{
    public const string Title = "Why it was refused";

    /// <summary>The reason; <see cref="Reason.None"/> when a body has none that this version knows.</summary>
    public static Reason Why(RefusalBody refusal) => ReasonInfo.Find(refusal.Reason ?? "");

    /// <summary>Begins the section.</summary>
    public static Steps Begin(RefusalBody refusal)
    {
        var steps = new Steps(Title);
        steps.Say($"{InputSection.Said(refusal.Asked)} was refused: {InputSection.Said(refusal.Reason)} (reason {Whole(refusal.Number)}).");
        steps.Say($"The text served: {InputSection.Said(refusal.Text)}");
        foreach (var (name, value) in refusal.Limits ?? new Dictionary<string, string>())
        {
            steps.Say($"With it came: {name} {InputSection.Said(value)}.");
        }

        return steps;
    }

    /// <summary>Says that the verdict depends on facts that no ledger holds.</summary>
    public static void NotHeld(Steps steps, string what) =>
        steps.Say($"This depends on something that the ledger does not hold: {what}. So it can't be computed again, and is taken as recorded.");
}
