using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Fitting;

/// <summary>The motion that takes the model onto what was measured, best in the sense of least squares: measured ≈ R·model + t.</summary>
public sealed class RigidMotion
{
    /// <summary>R: turns a vector of the model into the frame of what was measured. Always a proper rotation.</summary>
    public required Rotation Turn { get; init; }

    /// <summary>R's columns: the model's axes in the frame of what was measured, orthonormal to the last bits.</summary>
    public required (Vector3 X, Vector3 Y, Vector3 Z) Axes { get; init; }

    /// <summary>t, in metres.</summary>
    public required Vector3 TranslationMetres { get; init; }

    /// <summary>Measured less R·model + t, for each point, in metres.</summary>
    public required IReadOnlyList<Vector3> Residuals { get; init; }

    /// <summary>The sum of the squared lengths of the residuals, each times its weight, in m².</summary>
    public required double SumOfSquares { get; init; }

    /// <summary>The root mean square of the residuals' lengths, weighted, in metres.</summary>
    public required double RmsMetres { get; init; }

    /// <summary>
    /// The covariance of the rotation vector in the frame of what was measured, in rad²/m², for a standard uncertainty of 1 along each axis of
    /// a point of the mean weight; row by row. Times σ² it is in rad².
    /// </summary>
    public required IReadOnlyList<Vector3> TurnCovariancePerUnit { get; init; }
}
