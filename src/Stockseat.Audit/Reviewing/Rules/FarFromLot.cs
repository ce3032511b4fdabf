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
            $"At {facts.Text.Time(refusal)} {Station(refusal)} pushed {What(refusal)} for {refusal.Fixture}, and it was refused: {Outside(refusal)}. "
                + $"{Next(facts, next)}",
            "Nothing was served from it, and the measurement before it was void from then on; but the stock in the nests may not be the expected one.",
            refusal.Number == (int)Reason.ReadingsDisagree
                ? "Clean stock and gauge, and measure again; look for stock that is out of round or bent."
                : "Check the stock's label, the unit that the gauge is set to, and the lot that the station names; measure again.");

    private static string What(RefusalBody refusal) => refusal.Readings is { Count: > 1 } readings
        ? $"{readings.Count} readings from {FindingText.Mm(readings.Min())} to {FindingText.Mm(readings.Max())}"
        : refusal.Diameter is { } diameter ? FindingText.Mm(diameter) : "a diameter";

    private static string Outside(RefusalBody refusal)
    {
        if (refusal.Number == (int)Reason.ReadingsDisagree)
        {
            var allowed = refusal.Agreement + (refusal.LotTerms?.OutOfRound ?? 0);
            return $"its readings are {FindingText.Mm(refusal.Readings!.Max() - refusal.Readings!.Min())} "
                + $"apart{(allowed is { } limit ? $", and {FindingText.Mm(limit)} is allowed" : "")}";
        }

        var terms = refusal.LotTerms is { Least: { } least, Greatest: { } greatest } ? $", which has {FindingText.Mm(least)} to {FindingText.Mm(greatest)}"
            : "";
        return $"it is outside lot {refusal.Lot}{terms}{Slip(refusal)}";
    }

    private static string Slip(RefusalBody refusal) => refusal.Limits?.GetValueOrDefault("slip") switch
    {
        "inch-for-millimetre" => $"; it fits when the number is taken in inches{As(refusal)}",
        "millimetre-for-inch" => $"; it fits when the number is taken in millimetres{As(refusal)}",
        "radius-for-diameter" => $"; it fits when the number is taken as a radius{As(refusal)}",
        "factor-of-ten" => $"; it fits with the decimal point one place off{As(refusal)}",
        null => "",
        var other => $"; it fits by {other}{As(refusal)}",
    };

    private static string As(RefusalBody refusal) =>
        double.TryParse(refusal.Limits?.GetValueOrDefault("slip_metres"), NumberStyles.Float, CultureInfo.InvariantCulture, out var metres)
            ? $": {FindingText.Mm(metres)}" : "";

    private static string Next(ReviewFacts facts, MeasurementBody? next) => next is null
        ? "No other measurement of it followed."
        : $"Measurement {FindingText.Whole(next.Serial)} of {facts.Text.Time(next)}, {FindingText.Mm(next.Diameter)}{FindingText.OfLot(next.Lot)}, followed.";

    /// <summary>The last measurement of the same lot may be for another fixture: it is the same stock.</summary>
    private static IEnumerable<ReviewFinding> Taken(ReviewFacts facts) =>
        from measured in facts.Bodies.OfType<MeasurementBody>()
        where measured.Lot is not null
        let before = facts.OfLots.LastOrDefault(m => m.Serial < measured.Serial && m.Lot == measured.Lot)
        where before is not null
        let off = Math.Abs(measured.Diameter - before.Diameter)
        let allowed = Band(measured) ?? facts.Review.Question.JumpMetres
        where off > allowed + ReviewFacts.Rounding
        let spans = Band(measured) is null ? $"the lot states no tolerance, and {FindingText.Mm(allowed)} was asked about"
            : $"the lot's tolerance spans {FindingText.Mm(allowed)}"
        select new ReviewFinding(
            FindingRule.FarFromLot, [before.Serial, measured.Serial], measured.Fixture,
            $"At {facts.Text.Time(measured)} {Station(measured)} measured {FindingText.Mm(measured.Diameter)} for {measured.Fixture} "
                + $"(entry {FindingText.Whole(measured.Serial)}), {FindingText.Mm(off)} from the {FindingText.Mm(before.Diameter)} of measurement "
                + $"{FindingText.Whole(before.Serial)} of the same lot {measured.Lot}; {spans}.",
            "Stock of one lot does not differ by so much. Either one of the two measurements was wrong, or other stock was in the nests; answers from then on "
                + "were for that diameter.",
            "Measure the stock that is in the nests again, and check its label. Describe the lot with its nominal and tolerance, so that such a measurement "
                + "is refused.");

    /// <summary>From the least diameter of the lot to the greatest; null when the lot has only a name.</summary>
    private static double? Band(MeasurementBody measured) => measured.LotTerms?.Greatest - measured.LotTerms?.Least;

    private static string Station(EntryBody body) => body.Client is { } name ? $"station {name}" : "an unnamed station";
}
