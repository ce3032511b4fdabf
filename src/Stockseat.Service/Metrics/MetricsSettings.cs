namespace Stockseat.Service.Metrics;

/// <summary>Where metrics are pushed, besides the page on which they are read.</summary>
/// <param name="Push">The address of a collector that takes OTLP over HTTP; null: they are not pushed.</param>
/// <param name="Every">How often.</param>
public sealed record MetricsSettings(Uri? Push, TimeSpan Every)
{
    /// <summary>How often unless stated.</summary>
    public static readonly TimeSpan UsualEvery = TimeSpan.FromSeconds(15);

    /// <summary>The longest time between two pushes.</summary>
    public static readonly TimeSpan LongestEvery = TimeSpan.FromHours(1);

    /// <summary>They are not pushed.</summary>
    public static MetricsSettings NoPush { get; } = new(null, UsualEvery);
}
