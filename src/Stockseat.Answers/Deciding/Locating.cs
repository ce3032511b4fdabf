using System.Globalization;
using Stockseat.Answers.Measuring;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Records;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Frames;

namespace Stockseat.Answers.Deciding;

/// <summary>Decides a locate: which diameter, which revision, where the nest is.</summary>
internal static class Locating
{
    /// <summary>How far a measurement may seem to lie in the future before its age is doubtful.</summary>
    private static readonly TimeSpan ClockSlack = TimeSpan.FromSeconds(1);

    public static EntryBody Decide(LocateAsk ask, Situation situation, DateTimeOffset at)
    {
        var state = situation.Find(ask.Fixture);
        StandingMeasurement? measurement = null;
        Placement placed = default;
        AnswerUncertainty? sure = null;
        var diameter = ask.DiameterMetres;
        var refusal = ask.Denied
            ?? Decision.Unserved(ask.Fixture, state)
            ?? Asked(ask, state!.InForce!)
            ?? (diameter is null ? Measured(ask, state, situation.StepBack, at, out measurement) : null);
        diameter ??= measurement?.DiameterMetres;
        refusal ??= Near(ask, diameter!.Value, measurement);
        refusal ??= Fit.Judge(state!.InForce!, diameter!.Value, StandOff(state.InForce!, ask.Purpose), out placed);
        refusal ??= Certainty.Judge(state!.InForce!, placed, measurement?.From, ask.Column, ask.Row, out sure);
        return refusal is null
            ? Answer(ask, state!, diameter!.Value, measurement, at, placed.ShiftPlan, sure)
            : Decision.Refuse(ask, refusal, state) with
            {
                Purpose = ask.Purpose.Name(),
                Nest = [ask.Column, ask.Row],
                Diameter = diameter,
                Measurement = measurement?.Serial,
                From = measurement?.From,
                Uncertainty = sure,
                Lot = ask.Lot,
                Nominal = ask.NominalMetres,
                Within = ask.WithinMetres,
            };
    }

    private static Refusal? Asked(LocateAsk ask, Revision revision)
    {
        if (!revision.Layout.Has(ask.Column, ask.Row))
        {
            return Refusal.Of(
                Reason.NestUnknown,
                $"{ask.Fixture} has no nest {ask.Column},{ask.Row}: its layout has columns 0 to {revision.Layout.Columns - 1} and rows 0 to {revision.Layout.Rows - 1}",
                ("columns", Whole(revision.Layout.Columns)), ("rows", Whole(revision.Layout.Rows)));
        }

        return ask.Purpose == Purpose.Place && ask.DiameterMetres is null && !revision.ReturnsRawStock
            ? Refusal.Of(Reason.DiameterMissing, $"a place into {ask.Fixture} needs the finished diameter: the measurement is of the raw stock")
            : null;
    }

    private static Refusal? Measured(LocateAsk ask, FixtureState state, StepBack? back, DateTimeOffset at, out StandingMeasurement? measurement)
    {
        measurement = state.Measurement;
        if (measurement is null)
        {
            return Refusal.Of(Reason.MeasurementMissing, $"no measurement of {ask.Fixture} stands: {state.NoMeasurement}");
        }

        if (measurement.Serial < back?.Serial)
        {
            return Doubtful(ask, measurement, back);
        }

        var age = at - measurement.At;
        if (age > measurement.FreshFor || age < -ClockSlack)
        {
            return Refusal.Of(
                Reason.MeasurementStale,
                $"measurement {measurement.Serial} of {ask.Fixture} is {Seconds(age)} s old; at most {Seconds(measurement.FreshFor)} s is fresh",
                ("age_seconds", Seconds(age)), ("limit_seconds", Seconds(measurement.FreshFor)));
        }

        return ask.Lot is not null && ask.Lot != measurement.Lot
            ? Refusal.Of(
                Reason.MeasurementOutsideLot,
                $"measurement {measurement.Serial} of {ask.Fixture} is of {(measurement.Lot is null ? "no lot" : $"lot {measurement.Lot}")}, lot {ask.Lot} was asked for",
                ("lot", measurement.Lot ?? ""), ("asked", ask.Lot))
            : null;
    }

    /// <summary>Its age by the clock would be too short, by what was set back.</summary>
    private static Refusal Doubtful(LocateAsk ask, StandingMeasurement measurement, StepBack back)
    {
        var seconds = back.Seconds.ToString("0.######", CultureInfo.InvariantCulture);
        var what = back.AtStart ? $"at a start the clock was {seconds} s behind the ledger's last entry" : $"the clock was set back by {seconds} s";
        return Refusal.Of(
            Reason.MeasurementStale,
            $"{what} (entry {back.Serial}) after measurement {measurement.Serial} of {ask.Fixture}, so nobody knows its age; at most {Seconds(measurement.FreshFor)} s is fresh",
            ("clock_back_seconds", seconds), ("clock_step", back.Serial.ToString(CultureInfo.InvariantCulture)), ("limit_seconds", Seconds(measurement.FreshFor)));
    }

    /// <summary>The diameter used has to be as near to the nominal as was asked; compared to a picometre, as both round.</summary>
    private static Refusal? Near(LocateAsk ask, double diameter, StandingMeasurement? measurement)
    {
        if (ask is not { NominalMetres: { } nominal, WithinMetres: { } within } || Math.Abs(diameter - nominal) <= within + Measure.Rounding)
        {
            return null;
        }

        var what = measurement is null ? "the stated diameter" : $"measurement {measurement.Serial} of {ask.Fixture}";
        return Refusal.Of(
            Reason.MeasurementOutsideLot,
            $"{what}, {Fit.M(diameter)} m, is {Fit.M(Math.Abs(diameter - nominal))} m from the nominal {Fit.M(nominal)} m; within {Fit.M(within)} m was asked for",
            ("diameter_metres", Fit.M(diameter)), ("nominal_metres", Fit.M(nominal)), ("limit_metres", Fit.M(within)));
    }

    private static AnswerBody Answer(
        LocateAsk ask, FixtureState state, double diameter, StandingMeasurement? measurement, DateTimeOffset at, PlanVector shift,
        AnswerUncertainty? sure)
    {
        var revision = state.InForce!;
        var offset = revision.Layout.OffsetBase(revision.Frame, ask.Column, ask.Row);
        var correction = Correction.Of(revision.TaughtOrigin, revision.Frame, offset, shift);
        var q = correction.Pose.Orientation;
        return new()
        {
            Fixture = ask.Fixture,
            Revision = revision.Number,
            Digest = revision.Digest,
            Purpose = ask.Purpose.Name(),
            Nest = [ask.Column, ask.Row],
            Diameter = diameter,
            Measurement = measurement?.Serial,
            Age = measurement is null ? null : Math.Max(0, Math.Round((at - measurement.At).TotalSeconds, 6)),
            From = measurement?.From,
            Lot = measurement?.Lot,
            Nominal = ask.NominalMetres,
            Within = ask.WithinMetres,
            First = First(state, ask.Purpose, correction.ShiftBase),
            StandOff = StandOff(revision, ask.Purpose),
            Position = Three(correction.Pose.PositionMetres),
            Orientation = [q.W, q.X, q.Y, q.Z],
            ShiftBase = Three(correction.ShiftBase),
            ShiftOrigin = Three(correction.ShiftOrigin),
            Uncertainty = sure,
            Decimals = ask.Decimals,
            Unit = ask.Unit == ServedUnit.Metre ? null : ask.Unit.Name(),
        };
    }

    /// <summary>Yes after an adoption, or when the shift differs from the last confirmed one by more than the limit.</summary>
    private static bool First(FixtureState state, Purpose purpose, Vector3 shiftBase) =>
        state.Confirmed(purpose) is not { } confirmed
        || (shiftBase - new Vector3(confirmed.X, confirmed.Y, confirmed.Z)).Length > (state.InForce!.Limits.FirstAboveMetres ?? 0);

    private static double StandOff(Revision revision, Purpose purpose) =>
        purpose == Purpose.Pick ? revision.StandOffPickMetres : revision.StandOffPlaceMetres;

    private static double[] Three(Vector3 v) => [v.X, v.Y, v.Z];

    private static string Seconds(TimeSpan span) => span.TotalSeconds.ToString("0.###", CultureInfo.InvariantCulture);

    private static string Whole(int value) => value.ToString(CultureInfo.InvariantCulture);
}
