using System.Globalization;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Reviewing.Rules;

/// <summary>A place was refused because its diameter is above that of the raw stock: one of the two numbers is wrong.</summary>
internal sealed class PlaceAboveRaw : IFindingRule
{
    public IEnumerable<ReviewFinding> Find(ReviewFacts facts) =>
        facts.Bodies.OfType<RefusalBody>().Where(r => r is { Number: (int)Reason.DiameterAboveRaw, Diameter: not null }).Select(r => Of(facts, r));

    private static ReviewFinding Of(ReviewFacts facts, RefusalBody refusal)
    {
        var raw = double.TryParse(refusal.Limits?.GetValueOrDefault("raw_metres"), NumberStyles.Float, CultureInfo.InvariantCulture, out var metres)
            ? $", which was measured with {facts.Text.Length(metres)}" : "";
        return new(
            FindingRule.PlaceAboveRaw, [refusal.Serial], refusal.Fixture,
            $"At {facts.Text.Time(refusal)} {FindingText.Controller(refusal)} asked for a place of {facts.Text.Length(refusal.Diameter!.Value)} into "
                + $"{refusal.Fixture} and was refused (entry {FindingText.Whole(refusal.Serial)}, {refusal.Reason}): that is larger than the raw stock{raw}.",
            "A finished piece is not larger than the raw stock that it was made of. Either the raw stock was measured wrongly, and the picks by that number "
                + "went to the wrong place, or the diameter of the place is wrong.",
            "Measure the raw stock and the finished piece by hand, and compare both with what was sent. Go on only when they fit.");
    }
}
