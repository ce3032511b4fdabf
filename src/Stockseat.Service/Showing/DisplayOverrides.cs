namespace Stockseat.Service.Showing;

/// <summary>What the command line says of the display; null: nothing.</summary>
/// <param name="Length">The unit of lengths.</param>
/// <param name="Zone">The time zone.</param>
/// <param name="Paper">The paper.</param>
public sealed record DisplayOverrides(string? Length, string? Zone, string? Paper);
