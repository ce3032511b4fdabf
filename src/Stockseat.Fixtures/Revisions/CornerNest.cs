using Stockseat.Seating.Uncertainty;

namespace Stockseat.Fixtures.Revisions;

/// <summary>A nest at an end of the layout.</summary>
/// <param name="Column">Its column.</param>
/// <param name="Row">Its row.</param>
/// <param name="Offset">The offset from nest 0,0, in the plan's axes.</param>
public readonly record struct CornerNest(int Column, int Row, NestOffset Offset);
