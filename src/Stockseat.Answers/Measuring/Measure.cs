using System.Globalization;
using Stockseat.Answers.Deciding;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Records;

namespace Stockseat.Answers.Measuring;

/// <summary>Decides a push of a diameter: it is told at once when it can't be right.</summary>
internal static class Measure
{
    /// <summary>A picometre: the difference of two readings that are exactly as far apart as the limit rounds either way.</summary>
    internal const double Rounding = 1e-12;

    public static EntryBody Decide(MeasureAsk ask, Situation situation)
    {
        var state = situation.Find(ask.Fixture);
        var diameter = Mean(ask.ReadingsMetres);
        var refusal = Judge(ask, state, diameter);
        if (refusal is not null)
        {
            return Decision.Refuse(ask, refusal, state) with
            {
                Diameter = diameter,
                Readings = ask.ReadingsMetres,
                Gauge = ask.Gauge,
                Lot = ask.Lot,
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
            Limits = ask.Terms!.Limits,
            Lot = ask.Lot,
            FreshFor = ask.Terms!.FreshFor.TotalSeconds,
        };
    }

    private static Refusal? Judge(MeasureAsk ask, FixtureState? state, double diameter)
    {
        if (ask.Denied is { } denied)
        {
            return denied;
        }

        if (state is null)
        {
            return Decision.Unknown(ask.Fixture);
        }

        if (ask.Terms is not { } terms)
        {
            return Refusal.Of(Reason.GaugeUnknown, $"there is no gauge {ask.Gauge}");
        }

        var spread = Spread(ask);
        if (terms.AgreementMetres is { } agreement && spread > agreement + Rounding)
        {
            return Refusal.Of(
                Reason.ReadingsDisagree,
                string.Create(CultureInfo.InvariantCulture, $"{ask.ReadingsMetres.Count} readings spread by {Fit.M(spread)} m; gauge {ask.Gauge} agrees within {Fit.M(agreement)} m"),
                ("spread_metres", Fit.M(spread)), ("limit_metres", Fit.M(agreement)));
        }

        return state.InForce is { } revision ? Fit.Judge(revision, diameter, revision.StandOffPickMetres, out _) : null;
    }

    /// <summary>Without the noise of a subtraction.</summary>
    private static double Spread(MeasureAsk ask) => Math.Round(ask.ReadingsMetres.Max() - ask.ReadingsMetres.Min(), 12);

    /// <summary>The mean; rounding never takes it outside its readings.</summary>
    private static double Mean(IReadOnlyList<double> readings) => Math.Clamp(readings.Sum() / readings.Count, readings.Min(), readings.Max());
}
