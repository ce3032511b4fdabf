using System.Globalization;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Positions;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Answers.Stock;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Measured;

/// <summary>Decides a push of a diameter. A diameter that can't be right is refused at once.</summary>
internal static class MeasuredDecision
{
    public static EntryBody Decide(MeasureAsk ask, Situation situation, DateTimeOffset at)
    {
        var state = situation.Find(ask.Fixture);
        var lot = situation.LotTerms(ask.Lot, ask.LotTerms);
        var diameter = Mean(ask.ReadingsMetres);
        var older = ask.Nest is null ? WaitedReadings.Older(ask, situation, at) : null;
        var refusal = Judge(ask, state)
            ?? (ask.Nest is { } nest ? OfNest(ask, nest, state!) : null)
            ?? (older is null ? WaitedReadings.Cleared(ask, situation) : WaitedReadings.Than(ask, older))
            ?? (ask.Rules > 1 && lot is not null && ask.Nest is null ? StillLoaded(ask, state!) : null)
            ?? Judge(ask, state!, lot, diameter);
        if (refusal is not null)
        {
            return Refuse(ask, refusal, state) with
            {
                Diameter = diameter,
                LotTerms = lot,
                Measurement = refusal.Reason == Reason.MeasurementStale ? older?.Serial : null,
            };
        }

        return new MeasurementBody
        {
            Fixture = ask.Fixture,
            Revision = state!.InForce?.Number,
            Digest = state.InForce?.Digest,
            Diameter = diameter,
            Readings = ask.ReadingsMetres,
            Spread = ask.ReadingsMetres.Count > 1 ? Spread(ask) : null,
            Unit = ask.Unit,
            Gauge = ask.Gauge,
            Agreement = ask.Terms!.AgreementMetres,
            Limits = ask.Terms.Limits,
            Lot = ask.Lot,
            LotTerms = lot,
            Length = ask.LengthMetres,
            Nest = ask.Nest,
            FreshFor = ask.Terms.FreshFor.TotalSeconds,
            Since = ask.Since,
            Waited = ask.Waited,
        };
    }

    /// <summary>
    /// The lot of the last pick is still in the nests unless somebody said that they were emptied. The refusal voids the measurement, so that neither lot is
    /// picked by the diameter of the other.
    /// </summary>
    private static Refusal? StillLoaded(MeasureAsk ask, FixtureState state) =>
        ask.Lot is { } lot && state.Served is { Lot: { } loaded, LotSerial: var answer } && loaded != lot
            ? Refusal.Of(
                Reason.LotStillLoaded,
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"answer {answer} of {ask.Fixture} was for lot {loaded}, and nobody has said since that the nests were emptied; "
                        + $"lot {lot} was measured"),
                ("loaded", loaded), ("lot", lot), ("answer", answer.ToString(CultureInfo.InvariantCulture)))
            : null;

    /// <summary>The blank of one nest belongs to a load, in which each nest may have stock of its own lot.</summary>
    private static Refusal? OfNest(MeasureAsk ask, int[] nest, FixtureState state) =>
        state.InForce is { } revision && Positioning.NoNest(revision, nest[0], nest[1]) is { } unknown ? unknown
        : state.Load is not { } load ? Unserved.NoLoad(ask.Fixture)
        : load.Raw.Contains((nest[1], nest[0])) ? null
        : Refusal.Of(
            Reason.LoadEmpty, $"load {load.Serial.ToString(CultureInfo.InvariantCulture)} of {ask.Fixture} has no raw stock in nest {nest[0]},{nest[1]}",
            ("load", load.Serial.ToString(CultureInfo.InvariantCulture)));

    /// <summary>A refusal with the values of the push.</summary>
    internal static RefusalBody Refuse(MeasureAsk ask, Refusal refusal, FixtureState? state) => ask.Refuse(refusal, state) with
    {
        Readings = ask.ReadingsMetres,
        Gauge = ask.Gauge,
        Agreement = ask.Terms?.AgreementMetres,
        Lot = ask.Lot,
        Length = ask.LengthMetres,
        Nest = ask.Nest,
        Since = ask.Since,
        Waited = ask.Waited,
        Sent = ask.ReadingsSent,
    };

    private static Refusal? Judge(MeasureAsk ask, FixtureState? state)
    {
        if (ask.Denied is { } denied)
        {
            return denied;
        }

        return state is null ? Unserved.Unknown(ask.Fixture)
            : ask.Terms is null ? Refusal.Of(Reason.GaugeUnknown, $"there is no gauge {ask.Gauge}")
            : null;
    }

    private static Refusal? Judge(MeasureAsk ask, FixtureState state, LotTerms? lot, double diameter)
    {
        if (ask.Lot is not null && lot is null)
        {
            return LotFit.Unknown(ask.Lot);
        }

        var sent = ask.ReadingsSent is [var only] ? only : null; // what was sent is no mean
        return Disagreement.Of(ask, lot?.OutOfRound, diameter)
            ?? (lot is null ? null : LotFit.Judge(ask.Lot!, lot, diameter, "the measurement", sent))
            ?? (lot is null || ask.LengthMetres is not { } length ? null : LotFit.JudgeLength(ask.Lot!, lot, length))
            ?? (state.InForce is { } revision
                ? Fit.Judge(revision, diameter, Purpose.Pick, out _, sent)
                    ?? (ask.LengthMetres is null ? null : StockLength.Judge(revision, ask.LengthMetres, out _))
                : null);
    }

    /// <summary>The spread, rounded so that the noise of a subtraction does not show.</summary>
    internal static double Spread(MeasureAsk ask) => Math.Round(ask.ReadingsMetres.Max() - ask.ReadingsMetres.Min(), 12);

    /// <summary>The mean; rounding never takes it outside its readings.</summary>
    private static double Mean(IReadOnlyList<double> readings) => Math.Clamp(readings.Sum() / readings.Count, readings.Min(), readings.Max());
}
