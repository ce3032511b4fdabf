using System.Globalization;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Reviewing.Rules;

/// <summary>A place has a diameter above that of the raw stock: one of the two numbers is wrong. Since version 2 it is refused.</summary>
internal sealed class PlaceAboveRaw : IFindingRule
{
    private const string Why =
        "A finished piece is not larger than the raw stock that it was made of. Either the raw stock was measured wrongly, and the picks by that number went "
            + "to the wrong place, or the diameter of the place is wrong.";

    private const string Next = "Measure the raw stock and the finished piece by hand, and compare both with what was sent. Go on only when they fit.";

    public IEnumerable<ReviewFinding> Find(ReviewFacts facts) =>
    [
        .. facts.Bodies.OfType<RefusalBody>().Where(r => r is { Number: (int)Reason.DiameterAboveRaw, Diameter: not null }).Select(r => Refused(facts, r)),
        .. Served(facts),
    ];

    /// <summary>Places that were served: version 1 refused none, and compared nothing.</summary>
    private static IEnumerable<ReviewFinding> Served(ReviewFacts facts) =>
        from served in facts.Served
        let answer = served.Answer
        where answer is { Version: 1, Purpose: "place", Measurement: null }
        let raw = facts.Standing(answer.Fixture, answer.Serial)
        where raw is not null && answer.Diameter > raw.Diameter + Off(raw)
        select new ReviewFinding(
            FindingRule.PlaceAboveRaw, [raw.Serial, answer.Serial], answer.Fixture,
            $"At {facts.Text.Time(answer)} {FindingText.Controller(answer)} was served a place of {facts.Text.Length(answer.Diameter)} into {answer.Fixture} "
                + $"(answer {FindingText.Whole(answer.Serial)}): that is larger than the raw stock, which was measured with {facts.Text.Length(raw.Diameter)} "
                + $"(entry {FindingText.Whole(raw.Serial)}{FindingText.OfLot(raw.Lot)}).",
            Why, Next)
        {
            MovedMetres = facts.Moves.Between(answer, answer.Diameter, raw.Diameter),
        };

    /// <summary>What the gauge may be off, as the service allows it since version 2.</summary>
    private static double Off(MeasurementBody raw) => (raw.Limits?.LimitsOfError ?? 0) + ReviewFacts.Rounding;

    private static ReviewFinding Refused(ReviewFacts facts, RefusalBody refusal)
    {
        double? measured = double.TryParse(refusal.Limits?.GetValueOrDefault("raw_metres"), NumberStyles.Float, CultureInfo.InvariantCulture, out var metres)
            ? metres : null;
        var raw = measured is { } of ? $", which was measured with {facts.Text.Length(of)}" : "";
        return new(
            FindingRule.PlaceAboveRaw, [refusal.Serial], refusal.Fixture,
            $"At {facts.Text.Time(refusal)} {FindingText.Controller(refusal)} asked for a place of {facts.Text.Length(refusal.Diameter!.Value)} into "
                + $"{refusal.Fixture} and was refused (entry {FindingText.Whole(refusal.Serial)}, {refusal.Reason}): that is larger than the raw stock{raw}.",
            Why, Next)
        {
            // The place was not served; a pick by that measurement may have been.
            MovedMetres = facts.Answers.LastOrDefault(a => a.Fixture == refusal.Fixture && a.Purpose == "pick" && a.Serial < refusal.Serial) is { } pick
                ? facts.Moves.Between(pick, measured, refusal.Diameter) : 0,
        };
    }
}
