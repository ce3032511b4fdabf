using Stockseat.Seating.Fitting;
using Stockseat.Seating.Frames;

namespace Stockseat.Fixtures.Revisions;

/// <summary>The frame of a plan that was fitted to touched nests, with the evidence for it.</summary>
/// <param name="Nests">The touched nests.</param>
/// <param name="Limits">How well they have to fit.</param>
/// <param name="Fit">The fit. The origin of its plan is that of the plan of nest 0,0.</param>
/// <param name="OriginMetres">Where, by this fit, stock of the taught diameter rests in nest 0,0, in base, in metres.</param>
/// <param name="OriginMissMetres">That position minus the taught position, along u, v, w, in metres.</param>
public sealed record TouchedFrame(
    IReadOnlyList<TouchedNest> Nests, TouchLimits Limits, FrameFit Fit, Vector3 OriginMetres, Vector3 OriginMissMetres);
