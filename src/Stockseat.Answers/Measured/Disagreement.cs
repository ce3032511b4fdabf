using System.Globalization;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Measured;

/// <summary>
/// Readings of one piece that are too far apart. They may spread by the agreement of the gauge plus, since the stock is turned between them, by how far the
/// lot may be out of round. A gauge that states no agreement, and a push that names no gauge, have a wide limit: it finds digits in the wrong order and
/// readings of two pieces, and lets rough bar through.
/// </summary>
public static class Disagreement
{
    /// <summary>The share of the diameter by which readings may spread where no agreement is stated.</summary>
    public const double UnstatedShare = 0.02;

    /// <summary>The least such spread, in metres: rough bar of a small diameter is out of round by more than the share.</summary>
    public const double UnstatedLeast = 0.001;

    /// <summary>How far readings may spread where no agreement is stated, in metres.</summary>
    public static double Unstated(double diameter) => Math.Max(UnstatedLeast, UnstatedShare * diameter);

    /// <summary>How far the gauge lets readings spread, in metres; null when that is not judged.</summary>
    /// <param name="stated">What the gauge states; null: nothing.</param>
    /// <param name="rules">The version of the rules: by those of version 1 only what a gauge states was judged.</param>
    /// <param name="diameter">The mean of the readings; null when it is not known.</param>
    public static double? Allowed(double? stated, int rules, double? diameter) =>
        stated ?? (rules > 1 && diameter is { } mean ? Unstated(mean) : null);

    /// <summary>The refusal; null when the readings agree.</summary>
    internal static Refusal? Of(MeasureAsk ask, double? outOfRound, double diameter)
    {
        var spread = MeasuredDecision.Spread(ask);
        var stated = ask.Terms!.AgreementMetres;
        if (Allowed(stated, ask.Rules, diameter) is not { } agreement || spread <= agreement + (outOfRound ?? 0) + Rounding.Metres)
        {
            return null;
        }

        string Said(LengthUnit unit)
        {
            var (by, allowed) = unit.Apart(spread, agreement + (outOfRound ?? 0));
            var count = ask.ReadingsMetres.Count.ToString(CultureInfo.InvariantCulture);
            var own = outOfRound is null ? allowed : unit.FixedText(agreement);
            return $"{count} readings spread by {by}; {(stated is null ? WithoutAgreement(ask, own) : $"gauge {ask.Gauge} has an Agreement of {own}")}"
                + (outOfRound is { } o ? $" and lot {ask.Lot} may be {unit.FixedText(o)} out of round, together {allowed}" : "");
        }

        (string, string)[] limits =
            [("spread_metres", LengthText.Metres(spread)), ("limit_metres", LengthText.Metres(agreement + (outOfRound ?? 0)))];
        if (StandingOut(ask.ReadingsMetres) is not { } at)
        {
            return Refusal.Of(Reason.ReadingsDisagree, Said, limits);
        }

        var (number, metres) = ((at + 1).ToString(CultureInfo.InvariantCulture), LengthText.Metres(ask.ReadingsMetres[at]));
        string Out(LengthUnit unit) => Refusal.Sent(ask.ReadingsSent?.ElementAtOrDefault(at), unit.FixedText(ask.ReadingsMetres[at]), unit);
        return Refusal.Of(Reason.ReadingsDisagree, unit => $"{Said(unit)}; reading {number}, {Out(unit)}, stands out",
            [.. limits, ("reading", number), ("reading_metres", metres)]);
    }

    private static string WithoutAgreement(MeasureAsk ask, string allowed) =>
        (ask.Gauge is null ? "without a gauge" : $"gauge {ask.Gauge} states no Agreement, so") + $" they may spread by {allowed}";

    /// <summary>The reading farthest from the median; null when two are equally far, as two readings always are.</summary>
    private static int? StandingOut(IReadOnlyList<double> readings)
    {
        var sorted = readings.Order().ToArray();
        var middle = sorted.Length / 2;
        var median = sorted.Length % 2 == 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
        var far = Enumerable.Range(0, readings.Count).OrderByDescending(i => Math.Abs(readings[i] - median)).Take(2).ToArray();
        return far.Length == 2 && Math.Abs(readings[far[0]] - median) - Math.Abs(readings[far[1]] - median) > Rounding.Metres ? far[0] : null;
    }
}
