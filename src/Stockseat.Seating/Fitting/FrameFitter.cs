using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Fitting;

/// <summary>Fits the plan's frame to touched points.</summary>
public static class FrameFitter
{
    /// <summary>Fits the frame.</summary>
    /// <param name="points">The touched points, two or more.</param>
    /// <param name="normal">The stated normal out of the plan in base, of any positive length.</param>
    /// <param name="holdNormal">Whether the normal is taken as stated; with two points it always is.</param>
    /// <param name="fit">The fit; null when there is a fault.</param>
    public static FrameFitFault TryFit(IReadOnlyList<TouchedPoint> points, Vector3 normal, bool holdNormal, out FrameFit? fit) =>
        throw new NotImplementedException();
}
