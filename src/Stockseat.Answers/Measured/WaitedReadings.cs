using System.Globalization;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Measured;

/// <summary>
/// Judges a push whose readings had to wait, for each other or for the ledger: it must not count for stock that came into the nests meanwhile, nor replace a
/// diameter that was measured later.
/// </summary>
internal static class WaitedReadings
{
    /// <summary>The measurement whose readings came later than those of the push; null when there is none, or when the clock can't tell.</summary>
    public static StandingMeasurement? Older(MeasureAsk ask, Situation situation, DateTimeOffset at) =>
        ask.Waited is { } waited && situation.Find(ask.Fixture)?.Measurement is { } stands && !situation.Doubts(stands) && at.AddSeconds(-waited) < stands.At
            ? stands
            : null;

    /// <summary>The refusal of a push that is older than the measurement.</summary>
    public static Refusal Than(MeasureAsk ask, StandingMeasurement stands) => Refusal.Of(
        Reason.MeasurementStale,
        $"the readings came {Seconds(ask.Waited!.Value)} s ago, before those of measurement {Serial(stands.Serial)} of {ask.Fixture}, which is newer",
        ("waited_seconds", Seconds(ask.Waited.Value)), ("measurement", Serial(stands.Serial)));

    /// <summary>Why readings that came before an entry can't be used after it; null when they can.</summary>
    public static Refusal? Cleared(MeasureAsk ask, Situation situation)
    {
        if (ask.Since is not { } since)
        {
            return null;
        }

        var described = ask.Lot is { } lot ? situation.Lots.GetValueOrDefault(lot) : null;
        var (serial, what) = situation.Find(ask.Fixture) is { } state && state.Cleared > since
                ? (state.Cleared, "the nests were emptied, or the fixture was held or another revision was adopted")
            : described?.Serial > since ? (described.Serial, $"lot {ask.Lot} was described")
            : (0, "");
        return serial == 0 ? null : Refusal.Of(
            Reason.MeasurementStale,
            $"the first of the readings came before entry {Serial(serial)}, when {what}, so they may be of other stock",
            ("cleared_by", Serial(serial)), ("since", Serial(since)));
    }

    private static string Serial(long serial) => serial.ToString(CultureInfo.InvariantCulture);

    private static string Seconds(double seconds) => Rounded.Short(seconds, 3);
}
