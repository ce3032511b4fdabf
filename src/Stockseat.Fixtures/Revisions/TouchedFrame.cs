using Stockseat.Seating.Fitting;
using Stockseat.Seating.Frames;

namespace Stockseat.Fixtures.Revisions;

/// <summary>A plan's frame that was fitted to touched nests, with what speaks for it.</summary>
/// <param name="Nests">The touched nests.</param>
/// <param name="Limits">How well they have to fit.</param>
/// <param name="Fit">The fit. Its plan's origin is where the plan of nest 0,0 has its own.</param>
/// <param name="OriginMetres">Where stock of the taught diameter rests in nest 0,0 by this fit, in base, in metres.</param>
/// <param name="OriginMissMetres">The same less the taught position, along u, v, w, in metres.</param>
public sealed record TouchedFrame(
    IReadOnlyList<TouchedNest> Nests, TouchLimits Limits, FrameFit Fit, Vector3 OriginMetres, Vector3 OriginMissMetres);
