namespace Stockseat.Service.Configuration;

/// <summary>The configuration names something that can't be used, which only a start finds out. Its message says what, and what to do.</summary>
public sealed class ConfigurationException(string message) : Exception(message);
