using System.Globalization;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Locate;

/// <summary>Whether asks can be answered by a measurement, by its age alone.</summary>
public static class UsableMeasurement
{
    /// <summary>How far in the future a measurement may seem to be before its age is doubtful.</summary>
    private static readonly TimeSpan ClockSlack = TimeSpan.FromSeconds(1);

    /// <summary>
    /// Why an ask that states no diameter is refused; null when the fixture's measurement can be used, or that of the next nest of its load.
    /// </summary>
    /// <param name="state">The fixture.</param>
    /// <param name="back">The newest step back of the clock.</param>
    /// <param name="at">The instant.</param>
    public static Refusal? Refused(FixtureState state, StepBack? back, DateTimeOffset at) =>
        state.Load is { Raw: [var (row, column), ..] } load && load.Measured.GetValueOrDefault((column, row)) is { } own
            ? Refused(state.Fixture, own.Measurement, own.Why ?? "", back, at)
            : Refused(state.Fixture, state.Measurement, state.NoMeasurement, back, at);

    internal static Refusal? Refused(string fixture, StandingMeasurement? measurement, string why, StepBack? back, DateTimeOffset at)
    {
        if (measurement is null)
        {
            return Refusal.Of(Reason.MeasurementMissing, $"no measurement of {fixture} can be used: {why}");
        }

        if (measurement.Serial < back?.Serial)
        {
            return Doubtful(fixture, measurement, back);
        }

        var age = at - measurement.At;
        return age <= measurement.FreshFor && age >= -ClockSlack ? null : Refusal.Of(
            Reason.MeasurementStale,
            $"measurement {measurement.Serial} of {fixture} is {Seconds(age)} s old; it may be used for at most {Seconds(measurement.FreshFor)} s",
            ("age_seconds", Seconds(age)), ("limit_seconds", Seconds(measurement.FreshFor)));
    }

    /// <summary>By the clock the measurement would seem younger than it is, by as much as the clock was set back.</summary>
    private static Refusal Doubtful(string fixture, StandingMeasurement measurement, StepBack back)
    {
        var seconds = Rounded.Short(back.Seconds, 6);
        var what = back.AtStart ? $"at a start the clock was {seconds} s behind the ledger's last entry" : $"the clock was set back by {seconds} s";
        return Refusal.Of(
            Reason.MeasurementStale,
            $"{what} (entry {back.Serial}) after measurement {measurement.Serial} of {fixture}, so its age is not known; it may be "
                + $"used for at most {Seconds(measurement.FreshFor)} s",
            ("clock_back_seconds", seconds), ("clock_step", back.Serial.ToString(CultureInfo.InvariantCulture)),
            ("limit_seconds", Seconds(measurement.FreshFor)));
    }

    private static string Seconds(TimeSpan span) => Rounded.Short(span.TotalSeconds, 3);
}
