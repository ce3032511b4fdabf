using Stockseat.Seating.Frames;

namespace Stockseat.Answers.Advising;

/// <summary>Where stock of the taught diameter rests in one nest.</summary>
/// <param name="Column">The nest's column.</param>
/// <param name="Row">The nest's row.</param>
/// <param name="PositionMetres">Its seat centre in base, in metres.</param>
public readonly record struct StatedNest(int Column, int Row, Vector3 PositionMetres);
