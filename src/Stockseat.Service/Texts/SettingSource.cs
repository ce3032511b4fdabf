namespace Stockseat.Service.Texts;

/// <summary>One setting and where it comes from.</summary>
/// <param name="Key">Its name, with colons between levels.</param>
/// <param name="Value">Its value as text.</param>
/// <param name="Source">command line, environment, file or default.</param>
public sealed record SettingSource(string Key, string Value, string Source);
