namespace Stockseat.Service.Configuration;

/// <summary>The configuration names something that can't be used, which is found only at a start. The message says what it is and what to do.</summary>
public sealed class ConfigurationException(string message) : Exception(message);
