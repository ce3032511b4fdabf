using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Fitting;

/// <summary>A master in a nest, and where its seat centre was found.</summary>
/// <param name="CellMetres">The offset of the nest in the plan (u, v, w), in metres.</param>
/// <param name="DiameterMetres">The master's diameter in metres, above 0.</param>
/// <param name="BaseMetres">Where its seat centre was found in base, in metres.</param>
public readonly record struct MasterTouch(Vector3 CellMetres, double DiameterMetres, Vector3 BaseMetres);
