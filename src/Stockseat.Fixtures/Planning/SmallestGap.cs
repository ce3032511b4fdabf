using Stockseat.Seating.Envelopes;

namespace Stockseat.Fixtures.Planning;

/// <summary>The smallest gap in a range of diameters.</summary>
/// <param name="Reading">How large it is, and between which parties.</param>
/// <param name="DiameterMetres">The diameter at which it occurs, in metres.</param>
public readonly record struct SmallestGap(GapReading Reading, double DiameterMetres);
