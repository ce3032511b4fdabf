namespace Stockseat.Answers.Entries;

/// <summary>How well a measured diameter is known: the values from which its uncertainty was computed.</summary>
public sealed record DiameterFrom
{
    /// <summary>The gauge's name; absent when none was named.</summary>
    public string? Gauge { get; init; }

    /// <summary>How good the gauge's readings are; absent when the gauge stated nothing.</summary>
    public GaugeLimits? Limits { get; init; }

    /// <summary>Of how many readings the diameter is the mean.</summary>
    public int Readings { get; init; } = 1;

    /// <summary>How far the readings were allowed to spread, by the gauge, in metres; absent when their spread was not judged.</summary>
    public double? Agreement { get; init; }

    /// <summary>The standard deviation of the readings, in metres; absent when there is only one.</summary>
    public double? Deviation { get; init; }
}
