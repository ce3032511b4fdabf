namespace Stockseat.Service.Configuration;

/// <summary>The settings, or all faults of the configuration.</summary>
public sealed record SettingsReading(Settings? Settings, IReadOnlyList<string> Faults);
