using Stockseat.Answers.Entries;

namespace Stockseat.Answers.State;

/// <summary>The measurement of a fixture that counts now.</summary>
/// <param name="Serial">The serial of its entry.</param>
/// <param name="At">The instant of its first reading; its age counts from there.</param>
/// <param name="DiameterMetres">The mean of its readings, in metres.</param>
/// <param name="Lot">The lot of the stock; null when none was named.</param>
/// <param name="FreshFor">For how long it may be used.</param>
public sealed record StandingMeasurement(long Serial, DateTimeOffset At, double DiameterMetres, string? Lot, TimeSpan FreshFor)
{
    /// <summary>The length of the stock, in metres; null: it was not measured.</summary>
    public double? LengthMetres { get; init; }

    /// <summary>How well its diameter is known.</summary>
    public DiameterFrom From { get; init; } = new();
}
