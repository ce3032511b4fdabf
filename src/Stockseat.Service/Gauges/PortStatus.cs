namespace Stockseat.Service.Gauges;

/// <summary>The visible state of a reading port.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Gauge">Its gauge.</param>
/// <param name="Fixture">The fixture that it measures for.</param>
/// <param name="Endpoint">Where it listens, or connects to.</param>
/// <param name="State">Its state.</param>
/// <param name="Since">Since when.</param>
/// <param name="Counts">What happened since the start: lines, readings, measurements, refused, and each cause that occurred.</param>
/// <param name="LastCause">The last cause for which something was not used, with its text; null: there was none.</param>
public sealed record PortStatus(
    string Name,
    string Gauge,
    string Fixture,
    string Endpoint,
    PortState State,
    DateTimeOffset Since,
    IReadOnlyList<KeyValuePair<string, long>> Counts,
    string? LastCause)
{
    /// <summary>Its name and state in lines.</summary>
    public string Short => $"{Name}:{State.Name()}";
}
