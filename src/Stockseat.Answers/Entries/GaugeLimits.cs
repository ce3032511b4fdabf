namespace Stockseat.Answers.Entries;

/// <summary>How sure the readings of a gauge are, as its entry stated it when it measured. What was not stated is absent.</summary>
public sealed record GaugeLimits
{
    /// <summary>The limits of error, ±, in metres.</summary>
    public double? LimitsOfError { get; init; }

    /// <summary>The smallest step that it shows, in metres.</summary>
    public double? Resolution { get; init; }

    /// <summary>The standard deviation of one reading repeated, in metres.</summary>
    public double? Repeatability { get; init; }
}
