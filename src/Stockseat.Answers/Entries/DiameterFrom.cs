namespace Stockseat.Answers.Entries;

/// <summary>How well a measured diameter is known: what its uncertainty was computed from.</summary>
public sealed record DiameterFrom
{
    /// <summary>The gauge's name; absent when none was named.</summary>
    public string? Gauge { get; init; }

    /// <summary>How sure the gauge's readings are; absent when it stated nothing.</summary>
    public GaugeLimits? Limits { get; init; }

    /// <summary>How many readings it is the mean of.</summary>
    public int Readings { get; init; } = 1;

    /// <summary>How far they might spread by the gauge, in metres; absent when nobody judged them.</summary>
    public double? Agreement { get; init; }

    /// <summary>The standard deviation of its readings, in metres; absent with one.</summary>
    public double? Deviation { get; init; }
}
