using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Fitting;

/// <summary>
/// The rigid motion between two sets of points, measured ≈ R·model + t, by the singular values of their scatter.
/// <para>Symbols: x, y the points of the model and as measured; w their weights; x̄, ȳ the weighted centroids; S = Σ w·(y − ȳ)(x − x̄)ᵀ = U·diag(s)·Vᵀ.</para>
/// R = U·diag(1, 1, d)·Vᵀ with d = det U·det V, which keeps R a rotation where the naive product is a reflection; t = ȳ − R·x̄.
/// The second derivative of the objective by a turn, in the axes of U, is diag(s₂ + d·s₃, s₁ + d·s₃, s₁ + s₂); its inverse is the covariance.
/// Sources: W. Kabsch, Acta Crystallographica A 32 (1976) and A 34 (1978); S. Umeyama, IEEE PAMI 13 (1991); cited from memory.
/// </summary>
public static class RigidFit
{
    /// <summary>Fits the motion.</summary>
    /// <param name="model">Where the points should be, in metres.</param>
    /// <param name="measured">Where they were found, in metres; as many points as in the model.</param>
    /// <param name="weights">As many weights as points, each above 0; null: all weights are equal.</param>
    /// <param name="motion">The motion; null when there is a fault.</param>
    /// <returns>
    /// <see cref="FrameFitFault.TooFew"/> below three points; <see cref="FrameFitFault.Coincident"/> when the model spreads by less than a micrometre, or the
    /// measured points by less than a thousandth of the model; <see cref="FrameFitFault.Collinear"/> when either spreads across its longest direction by less
    /// than a thousandth of it, or when the two sets match so badly that a turn about one axis makes no difference.
    /// </returns>
    /// <exception cref="ArgumentException">The counts differ, or a weight is not above 0.</exception>
    public static FrameFitFault TryFit(
        IReadOnlyList<Vector3> model, IReadOnlyList<Vector3> measured, IReadOnlyList<double>? weights, out RigidMotion? motion)
    {
        if (model.Count != measured.Count || weights is not null && (weights.Count != model.Count || !weights.All(w => w > 0 && double.IsFinite(w))))
        {
            throw new ArgumentException(
                $"{model.Count} points of the model, {measured.Count} measured and {weights?.Count ?? model.Count} weights; as many of each are needed, and "
                    + "weights above 0", nameof(model));
        }

        motion = null;
        var fault = Degenerate(model, measured, weights);
        if (fault != FrameFitFault.None)
        {
            return fault;
        }

        var (u, s, vt) = Factors.Singular(Spread.Scatter(measured, model, weights), 3);
        var d = Factors.Determinant3(u) * Factors.Determinant3(vt) < 0 ? -1 : 1;
        double[] stiffness = [s[1] + d * s[2], s[0] + d * s[2], s[0] + s[1]];
        if (!(stiffness[0] > 1e-9 * s[0]))
        {
            return FrameFitFault.Collinear;
        }

        motion = Motion(model, measured, weights, Axes(u, vt, d), Covariance(u, stiffness, weights));
        return FrameFitFault.None;
    }

    private static FrameFitFault Degenerate(IReadOnlyList<Vector3> model, IReadOnlyList<Vector3> measured, IReadOnlyList<double>? weights)
    {
        if (model.Count < 3)
        {
            return FrameFitFault.TooFew;
        }

        var (drawn, found) = (Spread.Of(model, weights), Spread.Of(measured, weights));
        if (drawn.IsOnePlace || !(found.Longest > Spread.OneLine * drawn.Longest))
        {
            return FrameFitFault.Coincident;
        }

        return drawn.IsOneLine || found.IsOneLine ? FrameFitFault.Collinear : FrameFitFault.None;
    }

    /// <summary>The columns of R. The third is the product of the other two: orthonormal to the last bits, and never a reflection.</summary>
    private static (Vector3 X, Vector3 Y, Vector3 Z) Axes(double[] u, double[] vt, int d)
    {
        Vector3 Column(int j)
        {
            double Row(int i) => u[i] * vt[3 * j] + u[i + 3] * vt[3 * j + 1] + d * u[i + 6] * vt[3 * j + 2];
            return new(Row(0), Row(1), Row(2));
        }

        var (x, y) = (Column(0), Column(1));
        x = 1 / x.Length * x;
        y -= Vector3.Dot(x, y) * x;
        y = 1 / y.Length * y;
        return (x, y, Vector3.Cross(x, y));
    }

    private static Vector3[] Covariance(double[] u, double[] stiffness, IReadOnlyList<double>? weights)
    {
        var meanWeight = weights?.Average() ?? 1;
        double Entry(int i, int j) =>
            meanWeight * (u[i] * u[j] / stiffness[0] + u[i + 3] * u[j + 3] / stiffness[1] + u[i + 6] * u[j + 6] / stiffness[2]);
        return [.. Enumerable.Range(0, 3).Select(i => new Vector3(Entry(i, 0), Entry(i, 1), Entry(i, 2)))];
    }

    private static RigidMotion Motion(
        IReadOnlyList<Vector3> model, IReadOnlyList<Vector3> measured, IReadOnlyList<double>? weights, (Vector3 X, Vector3 Y, Vector3 Z) axes,
        Vector3[] covariance)
    {
        Vector3 Turned(Vector3 v) => v.X * axes.X + v.Y * axes.Y + v.Z * axes.Z;
        var (from, to) = (Spread.Centroid(model, weights), Spread.Centroid(measured, weights));
        var residuals = model.Select((x, i) => measured[i] - to - Turned(x - from)).ToArray();
        var square = residuals.Select((r, i) => (weights?[i] ?? 1) * Vector3.Dot(r, r)).Sum();
        return new()
        {
            Turn = Rotation.FromAxes(axes.X, axes.Y, axes.Z),
            Axes = axes,
            TranslationMetres = to - Turned(from),
            Residuals = residuals,
            SumOfSquares = square,
            RmsMetres = Math.Sqrt(square / (weights?.Sum() ?? model.Count)),
            TurnCovariancePerUnit = covariance,
        };
    }
}
