using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Fitting;

/// <summary>The motion that takes the model onto the measured points, best in the sense of least squares: measured ≈ R·model + t.</summary>
public sealed class RigidMotion
{
    /// <summary>R: turns a vector of the model into the frame of the measured points. Always a proper rotation.</summary>
    public required Rotation Turn { get; init; }

    /// <summary>The columns of R: the axes of the model in the frame of the measured points, orthonormal to the last bits.</summary>
    public required (Vector3 X, Vector3 Y, Vector3 Z) Axes { get; init; }

    /// <summary>t, in metres.</summary>
    public required Vector3 TranslationMetres { get; init; }

    /// <summary>Measured minus (R·model + t), for each point, in metres.</summary>
    public required IReadOnlyList<Vector3> Residuals { get; init; }

    /// <summary>The sum of the squared lengths of the residuals, each times its weight, in m².</summary>
    public required double SumOfSquares { get; init; }

    /// <summary>The root mean square of the residuals' lengths, weighted, in metres.</summary>
    public required double RmsMetres { get; init; }

    /// <summary>
    /// The covariance of the rotation vector in the frame of the measured points, row by row, in rad²/m²: for a standard uncertainty of 1 m along each axis of
    /// a point of the mean weight. Times σ² it is in rad².
    /// </summary>
    public required IReadOnlyList<Vector3> TurnCovariancePerUnit { get; init; }
}
