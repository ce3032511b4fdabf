using Stockseat.Seating.Frames;

namespace Stockseat.Fixtures.Revisions;

/// <summary>A nest in which a master was found.</summary>
/// <param name="Column">The nest's column.</param>
/// <param name="Row">The nest's row.</param>
/// <param name="DiameterMetres">The master's diameter, in metres.</param>
/// <param name="PositionMetres">Where the master's seat centre was found in base, in metres.</param>
public readonly record struct TouchedNest(int Column, int Row, double DiameterMetres, Vector3 PositionMetres);
