using Stockseat.Seating.Envelopes;

namespace Stockseat.Sheets.Drawings;

/// <summary>One diameter of a drawing.</summary>
/// <param name="Key">Its letter; "T" for the taught one.</param>
/// <param name="Metres">The diameter, in metres.</param>
/// <param name="Dashes">Its line's pattern.</param>
/// <param name="Stock">The stock in the nest; null when it has no seat.</param>
/// <param name="Tightest">The smallest gap at it; null when there is none.</param>
public sealed record DrawnDiameter(string Key, double Metres, string Dashes, Shape? Stock, GapReading? Tightest);
