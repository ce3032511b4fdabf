using System.Globalization;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Reviewing.Rules;

/// <summary>
/// A push was refused because it is outside its lot or its readings disagree; or a measurement was accepted that is far from the last one of the same lot.
/// </summary>
internal sealed class FarFromLot : IFindingRule
{
    public IEnumerable<ReviewFinding> Find(ReviewFacts facts) => [.. Refused(facts), .. Taken(facts)];

    private static IEnumerable<ReviewFinding> Refused(ReviewFacts facts) =>
        from refusal in facts.Bodies.OfType<RefusalBody>()
        where refusal is { Asked: "measured", Number: (int)Reason.MeasurementOutsideLot or (int)Reason.ReadingsDisagree }
        let next = facts.Of<MeasurementBody>(refusal.Fixture).FirstOrDefault(m => m.Serial > refusal.Serial)
        select new ReviewFinding(
            FindingRule.FarFromLot, next is null ? [refusal.Serial] : [refusal.Serial, next.Serial], refusal.Fixture,
            $"At {facts.Text.Time(refusal)} {Station(refusal)} pushed {What(facts, refusal)} for {refusal.Fixture}, and it was refused: "
                + $"{Outside(facts, refusal)}. {Next(facts, next)}",
            "Nothing was served from it, and the measurement before it was void from then on; but the stock in the nests may not be the expected one.",
            refusal.Number == (int)Reason.ReadingsDisagree
                ? "Clean stock and gauge, and measure again; look for stock that is out of round or bent."
                : "Check the stock's label, the unit that the gauge is set to, and the lot that the station names; measure again.")
        {
            MovedMetres = 0,
        };

    private static string What(ReviewFacts facts, RefusalBody refusal) => refusal.Readings is { Count: > 1 } readings
        ? $"{readings.Count} readings from {facts.Text.Length(readings.Min())} to {facts.Text.Length(readings.Max())}"
        : refusal.Diameter is { } diameter ? facts.Text.Length(diameter) : "a diameter";

    private static string Outside(ReviewFacts facts, RefusalBody refusal)
    {
        if (refusal.Number == (int)Reason.ReadingsDisagree)
        {
            var allowed = Disagreement.Allowed(refusal.Agreement, refusal.Version, refusal.Diameter) + (refusal.LotTerms?.OutOfRound ?? 0);
            return $"its readings are {facts.Text.Length(refusal.Readings!.Max() - refusal.Readings!.Min())} "
                + $"apart{(allowed is { } limit ? $", and {facts.Text.Length(limit)} is allowed" : "")}";
        }

        var terms = refusal.LotTerms is { Least: { } least, Greatest: { } greatest }
            ? $", which has {facts.Text.Length(least)} to {facts.Text.Length(greatest)}"
            : "";
        return $"it is outside lot {refusal.Lot}{terms}{Slip(facts, refusal)}";
    }

    private static string Slip(ReviewFacts facts, RefusalBody refusal) => refusal.Limits?.GetValueOrDefault("slip") switch
    {
        "inch-for-millimetre" => $"; it fits when the number is taken in inches{As(facts, refusal)}",
        "millimetre-for-inch" => $"; it fits when the number is taken in millimetres{As(facts, refusal)}",
        "radius-for-diameter" => $"; it fits when the number is taken as a radius{As(facts, refusal)}",
        "factor-of-ten" => $"; it fits with the decimal point one place off{As(facts, refusal)}",
        null => "",
        var other => $"; it fits by {other}{As(facts, refusal)}",
    };

    private static string As(ReviewFacts facts, RefusalBody refusal) =>
        double.TryParse(refusal.Limits?.GetValueOrDefault("slip_metres"), NumberStyles.Float, CultureInfo.InvariantCulture, out var metres)
            ? $": {facts.Text.Length(metres)}" : "";

    private static string Next(ReviewFacts facts, MeasurementBody? next) => next is null
        ? "No other measurement of it followed."
        : $"Measurement {FindingText.Whole(next.Serial)} of {facts.Text.Time(next)}, "
            + $"{facts.Text.Length(next.Diameter)}{FindingText.OfLot(next.Lot)}, followed.";

    /// <summary>The last measurement of the same lot may be for another fixture: it is the same stock.</summary>
    private static IEnumerable<ReviewFinding> Taken(ReviewFacts facts) =>
        from measured in facts.Bodies.OfType<MeasurementBody>()
        where measured.Lot is not null
        let before = facts.OfLots.LastOrDefault(m => m.Serial < measured.Serial && m.Lot == measured.Lot)
        where before is not null
        let off = Math.Abs(measured.Diameter - before.Diameter)
        let allowed = Band(measured) ?? facts.Review.Question.JumpMetres
        where off > allowed + ReviewFacts.Rounding
        let spans = Band(measured) is null ? $"the lot states no tolerance, and {facts.Text.Length(allowed)} was asked about"
            : $"the lot's tolerance spans {facts.Text.Length(allowed)}"
        select new ReviewFinding(
            FindingRule.FarFromLot, [before.Serial, measured.Serial], measured.Fixture,
            $"At {facts.Text.Time(measured)} {Station(measured)} measured {facts.Text.Length(measured.Diameter)} for {measured.Fixture} "
                + $"(entry {FindingText.Whole(measured.Serial)}), {facts.Text.Length(off)} from the {facts.Text.Length(before.Diameter)} of measurement "
                + $"{FindingText.Whole(before.Serial)} of the same lot {measured.Lot}; {spans}.",
            "Stock of one lot differs by less than this. Either one of the two measurements was wrong, or other stock was in the nests; answers from then on "
                + "were for that diameter.",
            "Measure the stock that is in the nests again, and check its label. Describe the lot with its nominal and tolerance, so that such a measurement "
                + "is refused.")
        {
            MovedMetres = facts.Moves.Between(
                facts.Answers.FirstOrDefault(a => a.Fixture == measured.Fixture && a.Measurement == measured.Serial) ??
                facts.Answers.LastOrDefault(a => a.Fixture == measured.Fixture), measured.Diameter, before.Diameter),
        };

    /// <summary>From the least diameter of the lot to the greatest; null when the lot has only a name.</summary>
    private static double? Band(MeasurementBody measured) => measured.LotTerms?.Greatest - measured.LotTerms?.Least;

    private static string Station(EntryBody body) => body.Client is { } name ? $"station {name}" : "an unnamed station";
}
