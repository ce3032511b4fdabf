using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Fitting;

/// <summary>The seat centre of a master: where it should be, and where it was found.</summary>
/// <param name="PlanMetres">Where it should be in the plan (u, v, w), in metres.</param>
/// <param name="BaseMetres">Where it was found in the base coordinate system, in metres.</param>
public readonly record struct TouchedPoint(Vector3 PlanMetres, Vector3 BaseMetres);
