namespace Stockseat.Seating.Frames;

/// <summary>Position and orientation of one frame in another (ISO 8373).</summary>
/// <param name="PositionMetres">The position in metres.</param>
/// <param name="Orientation">The orientation.</param>
public readonly record struct Pose(Vector3 PositionMetres, Rotation Orientation);
