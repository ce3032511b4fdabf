using Stockseat.Answers.Entries;
using Stockseat.Answers.Measured;

namespace Stockseat.Answers.State;

/// <summary>The measurement that stands for a fixture.</summary>
/// <param name="Serial">Its entry.</param>
/// <param name="At">The instant at which its first reading came; its age counts from there.</param>
/// <param name="DiameterMetres">The mean of its readings, in metres.</param>
/// <param name="Lot">The lot of the stock; null when none was named.</param>
/// <param name="FreshFor">For how long it may be used.</param>
public sealed record StandingMeasurement(long Serial, DateTimeOffset At, double DiameterMetres, string? Lot, TimeSpan FreshFor)
{
    /// <summary>How well its diameter is known.</summary>
    public DiameterFrom From { get; init; } = new();

    /// <summary>What stands after an entry.</summary>
    public static StandingMeasurement Of(MeasurementBody body) =>
        new(body.Serial, EntryTime.Parse(body.At).AddSeconds(-(body.Waited ?? 0)), body.Diameter, body.Lot, TimeSpan.FromSeconds(body.FreshFor))
        {
            From = new() { Gauge = body.Gauge, Limits = body.Limits, Agreement = body.Agreement, Readings = body.Readings.Count, Deviation = Deviate(body.Readings) },
        };

    private static double? Deviate(IReadOnlyList<double> readings)
    {
        if (readings.Count < 2)
        {
            return null;
        }

        var mean = readings.Sum() / readings.Count;
        return Math.Round(Math.Sqrt(readings.Sum(r => (r - mean) * (r - mean)) / (readings.Count - 1)), 15);
    }
}
