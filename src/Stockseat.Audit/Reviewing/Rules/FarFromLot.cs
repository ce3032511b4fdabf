using System.Globalization;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;

namespace Stockseat.Audit.Reviewing.Rules;

/// <summary>A push was refused since it lies outside its lot or its readings disagree; or one was taken that is far from the one before of the same lot.</summary>
internal sealed class FarFromLot : IFindingRule
{
    public IEnumerable<ReviewFinding> Find(Minutes minutes) => [.. Refused(minutes), .. Taken(minutes)];

    private static IEnumerable<ReviewFinding> Refused(Minutes minutes) =>
        from refusal in minutes.Bodies.OfType<RefusalBody>()
        where refusal is { Asked: "measured", Number: (int)Reason.MeasurementOutsideLot or (int)Reason.ReadingsDisagree }
        let next = minutes.Of<MeasurementBody>(refusal.Fixture).FirstOrDefault(m => m.Serial > refusal.Serial)
        select new ReviewFinding(
            FindingRule.FarFromLot, next is null ? [refusal.Serial] : [refusal.Serial, next.Serial], refusal.Fixture,
            $"At {minutes.Told.Time(refusal)} {Station(refusal)} pushed {What(refusal)} for {refusal.Fixture}, and it was refused: {Outside(refusal)}. {Next(minutes, next)}",
            "Nothing was served from it, and the measurement before it was void from then on; but what is in the nests may not be the stock that is expected.",
            refusal.Number == (int)Reason.ReadingsDisagree
                ? "Clean stock and gauge, and measure again; look for stock that is out of round or bent."
                : "Look at the stock's label, at the unit that the gauge is set to, and at which lot the station names; measure again.");

    private static string What(RefusalBody refusal) => refusal.Readings is { Count: > 1 } readings
        ? $"{readings.Count} readings from {Told.Mm(readings.Min())} to {Told.Mm(readings.Max())}"
        : refusal.Diameter is { } diameter ? Told.Mm(diameter) : "a diameter";

    private static string Outside(RefusalBody refusal)
    {
        if (refusal.Number == (int)Reason.ReadingsDisagree)
        {
            var allowed = refusal.Agreement + (refusal.LotTerms?.OutOfRound ?? 0);
            return $"its readings lie {Told.Mm(refusal.Readings!.Max() - refusal.Readings!.Min())} apart{(allowed is { } limit ? $", and {Told.Mm(limit)} is allowed" : "")}";
        }

        var terms = refusal.LotTerms is { Least: { } least, Greatest: { } greatest } ? $", which has {Told.Mm(least)} to {Told.Mm(greatest)}" : "";
        return $"it is outside lot {refusal.Lot}{terms}{Slip(refusal)}";
    }

    private static string Slip(RefusalBody refusal) => refusal.Limits?.GetValueOrDefault("slip") switch
    {
        "inch-for-millimetre" => $"; it fits when the number is taken in inches{As(refusal)}",
        "millimetre-for-inch" => $"; it fits when the number is taken in millimetres{As(refusal)}",
        "radius-for-diameter" => $"; it fits when the number is taken as a radius{As(refusal)}",
        "factor-of-ten" => $"; it fits with its point one place off{As(refusal)}",
        null => "",
        var other => $"; it fits by {other}{As(refusal)}",
    };

    private static string As(RefusalBody refusal) =>
        double.TryParse(refusal.Limits?.GetValueOrDefault("slip_metres"), NumberStyles.Float, CultureInfo.InvariantCulture, out var metres) ? $": {Told.Mm(metres)}" : "";

    private static string Next(Minutes minutes, MeasurementBody? next) => next is null
        ? "No other measurement of it followed."
        : $"Measurement {Told.Whole(next.Serial)} of {minutes.Told.Time(next)}, {Told.Mm(next.Diameter)}{Told.OfLot(next.Lot)}, followed.";

    /// <summary>The one before of the same lot may be of another fixture: it is the same stock.</summary>
    private static IEnumerable<ReviewFinding> Taken(Minutes minutes) =>
        from measured in minutes.Bodies.OfType<MeasurementBody>()
        where measured.Lot is not null
        let before = minutes.OfLots.LastOrDefault(m => m.Serial < measured.Serial && m.Lot == measured.Lot)
        where before is not null
        let off = Math.Abs(measured.Diameter - before.Diameter)
        let allowed = Band(measured) ?? minutes.Review.Question.JumpMetres
        where off > allowed + Minutes.Rounding
        select new ReviewFinding(
            FindingRule.FarFromLot, [before.Serial, measured.Serial], measured.Fixture,
            $"At {minutes.Told.Time(measured)} {Station(measured)} measured {Told.Mm(measured.Diameter)} for {measured.Fixture} (entry {Told.Whole(measured.Serial)}), {Told.Mm(off)} from the {Told.Mm(before.Diameter)} of measurement {Told.Whole(before.Serial)} of the same lot {measured.Lot}; {(Band(measured) is null ? $"the lot states no tolerance, and {Told.Mm(allowed)} was asked about" : $"the lot's tolerance spans {Told.Mm(allowed)}")}.",
            "Stock of one lot does not differ by so much: one of the two measurements was wrong, or other stock was in the nests, and answers from then on were for that diameter.",
            "Measure the stock that is in the nests again, and look at its label. Describe the lot with its nominal and tolerance, so that such a measurement is refused.");

    /// <summary>From the least diameter of the lot to the greatest; null when the lot is a name only.</summary>
    private static double? Band(MeasurementBody measured) => measured.LotTerms?.Greatest - measured.LotTerms?.Least;

    private static string Station(EntryBody body) => body.Client is { } name ? $"station {name}" : "a station that is not named";
}
