using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using static Stockseat.Audit.Explaining.Steps;

namespace Stockseat.Audit.Explaining;

/// <summary>What every refusal ends with: its reason and its text.</summary>
internal static class RefusedSection
{
    public const string Title = "Why it was refused";

    /// <summary>The reason; <see cref="Reason.None"/> when an odd body has none that is known here.</summary>
    public static Reason Why(RefusalBody refusal) => ReasonInfo.Find(refusal.Reason ?? "");

    /// <summary>Begins the section.</summary>
    public static Steps Begin(RefusalBody refusal)
    {
        var steps = new Steps(Title);
        steps.Say($"{InputSection.Said(refusal.Asked)} was refused: {InputSection.Said(refusal.Reason)} (reason {Whole(refusal.Number)}).");
        steps.Say($"The text served: {InputSection.Said(refusal.Text)}");
        foreach (var (name, value) in refusal.Limits ?? new Dictionary<string, string>())
        {
            steps.Say($"Told with it: {name} {InputSection.Said(value)}.");
        }

        return steps;
    }

    /// <summary>The verdict rests on what no ledger holds.</summary>
    public static void NotHeld(Steps steps, string what) =>
        steps.Say($"This rests on what the ledger does not hold: {what}. It can't be worked out again, and is taken as recorded.");
}
