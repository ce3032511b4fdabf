namespace Stockseat.Answers.Entries;

/// <summary>
/// How good the readings of a gauge are, as the gauge's settings stated it at the time of the measurement. Values that were not stated are absent.
/// </summary>
public sealed record GaugeLimits
{
    /// <summary>The limits of error, ±, in metres.</summary>
    public double? LimitsOfError { get; init; }

    /// <summary>The smallest step of its display, in metres.</summary>
    public double? Resolution { get; init; }

    /// <summary>The standard deviation of a single repeated reading, in metres.</summary>
    public double? Repeatability { get; init; }
}
