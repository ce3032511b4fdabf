using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Fitting;

/// <summary>The frame of the plan in the base coordinate system, fitted to touched points, and what the points say about it.</summary>
public sealed record FrameFit
{
    /// <summary>The fitted axes in base, orthonormal to the last bits.</summary>
    public required PlanFrame Frame { get; init; }

    /// <summary>Where the plan point 0, 0, 0 is in base, in metres.</summary>
    public required Vector3 OriginMetres { get; init; }

    /// <summary>Whether the normal was taken as stated: on request, or because there are only two points.</summary>
    public required bool NormalHeld { get; init; }

    /// <summary>Found minus fitted for each point, along u, v, w, in metres.</summary>
    public required IReadOnlyList<Vector3> ResidualsPlan { get; init; }

    /// <summary>The root mean square of the residuals' lengths, in metres.</summary>
    public required double RmsMetres { get; init; }

    /// <summary>The length of the longest residual, in metres.</summary>
    public required double WorstMetres { get; init; }

    /// <summary>The point with that residual: an index into the points; of equal ones the first.</summary>
    public required int Worst { get; init; }

    /// <summary>
    /// How far the points spread across the turn that they determine least, in metres: the root of the sum of the squares of their distances from their mean,
    /// along their second direction; along their first when the normal is held.
    /// </summary>
    public required double SpreadMetres { get; init; }

    /// <summary>The range of the residuals along w, in metres; null with three points or fewer, or when the normal is held.</summary>
    public required double? FlatnessMetres { get; init; }

    /// <summary>The ratio of measured pitch to drawn pitch along u; null when the points don't span u.</summary>
    public required double? ScaleAlongU { get; init; }

    /// <summary>The ratio of measured pitch to drawn pitch along v; null when the points don't span v.</summary>
    public required double? ScaleAlongV { get; init; }

    /// <summary>The angle between the measured u and v, minus a right angle, in radians; null when the points don't span both.</summary>
    public required double? SquarenessRadians { get; init; }

    /// <summary>The angle from the stated normal to the fitted one, in radians; 0 when it is held.</summary>
    public required double NormalTiltRadians { get; init; }

    /// <summary>The even rise of a row out of the plan of a held normal; null when the normal was fitted, or when there is none.</summary>
    public RowTrend? Trend { get; init; }

    /// <summary>
    /// How many more coordinates were found than the fit needs: 3n − 6. With a held normal 2n − 3, of u and v only: the residuals along w then show the tilt of
    /// the stated normal rather than the scatter of the touches.
    /// </summary>
    public required int DegreesOfFreedom { get; init; }

    /// <summary>The standard deviation of one touch along one axis, in metres; null at 0 degrees of freedom.</summary>
    public required double? SigmaMetres { get; init; }

    /// <summary>How uncertain the frame is; null when <see cref="SigmaMetres"/> is null.</summary>
    public required FrameCovariance? Covariance { get; init; }

    /// <summary>The point that stands out at 1 %; null when no point does, or when there are too few points to tell.</summary>
    public required Outlier? Outlier { get; init; }

    /// <summary>The place of a plan point in base, in metres.</summary>
    /// <param name="planMetres">The point (u, v, w), in metres.</param>
    public Vector3 ToBase(Vector3 planMetres) =>
        OriginMetres + planMetres.X * Frame.U + planMetres.Y * Frame.V + planMetres.Z * Frame.W;

    /// <summary>The place in the plan (u, v, w) of a point of base, in metres.</summary>
    /// <param name="baseMetres">The point in base, in metres.</param>
    public Vector3 ToPlan(Vector3 baseMetres)
    {
        var d = baseMetres - OriginMetres;
        return new(Vector3.Dot(Frame.U, d), Vector3.Dot(Frame.V, d), Vector3.Dot(Frame.W, d));
    }
}
