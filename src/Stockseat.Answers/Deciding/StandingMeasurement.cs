using Stockseat.Answers.Records;

namespace Stockseat.Answers.Deciding;

/// <summary>The measurement that stands for a fixture.</summary>
/// <param name="Serial">Its entry.</param>
/// <param name="At">The instant of that entry.</param>
/// <param name="DiameterMetres">The mean of its readings, in metres.</param>
/// <param name="Lot">The lot of the stock; null when none was named.</param>
/// <param name="FreshFor">For how long it may be used.</param>
public sealed record StandingMeasurement(long Serial, DateTimeOffset At, double DiameterMetres, string? Lot, TimeSpan FreshFor)
{
    /// <summary>The gauge's name; null when none was named.</summary>
    public string? Gauge { get; init; }

    /// <summary>How sure the gauge's readings are; null when it stated nothing.</summary>
    public GaugeLimits? Limits { get; init; }

    /// <summary>How many readings it is the mean of.</summary>
    public int Readings { get; init; } = 1;

    /// <summary>The standard deviation of its readings, in metres; null with one.</summary>
    public double? Deviation { get; init; }

    /// <summary>What stands after an entry.</summary>
    public static StandingMeasurement Of(MeasurementBody body) =>
        new(body.Serial, EntryTime.Parse(body.At), body.Diameter, body.Lot, TimeSpan.FromSeconds(body.FreshFor))
        {
            Gauge = body.Gauge,
            Limits = body.Limits,
            Readings = body.Readings.Count,
            Deviation = Deviate(body.Readings),
        };

    private static double? Deviate(IReadOnlyList<double> readings)
    {
        if (readings.Count < 2)
        {
            return null;
        }

        var mean = readings.Sum() / readings.Count;
        return Math.Sqrt(readings.Sum(r => (r - mean) * (r - mean)) / (readings.Count - 1));
    }
}
