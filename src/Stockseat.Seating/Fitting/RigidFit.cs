using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Fitting;

/// <summary>The rigid motion between two sets of points.</summary>
public static class RigidFit
{
    /// <summary>Fits measured ≈ R·model + t.</summary>
    public static FrameFitFault TryFit(
        IReadOnlyList<Vector3> model, IReadOnlyList<Vector3> measured, IReadOnlyList<double>? weights, out RigidMotion? motion) =>
        throw new NotImplementedException();
}
