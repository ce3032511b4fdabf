using Stockseat.Answers.Entries;

namespace Stockseat.Answers.State;

/// <summary>The newest answers of a fixture, by their entries; 0: none.</summary>
/// <param name="Pick">The newest answer for a pick.</param>
/// <param name="Place">The newest answer for a place.</param>
/// <param name="LotSerial">The newest answer for a pick of a lot, since the nests were emptied.</param>
/// <param name="Lot">That lot; null: none.</param>
public sealed record Served(long Pick, long Place, long LotSerial, string? Lot)
{
    /// <summary>Nothing was served.</summary>
    public static Served Nothing { get; } = new(0, 0, 0, null);

    /// <summary>The newest answer of a purpose.</summary>
    public long Last(Purpose purpose) => purpose == Purpose.Pick ? Pick : Place;
}
