using MathNet.Numerics;

namespace Stockseat.Seating.Fitting;

/// <summary>
/// Which point is contradicted by the others. Leaving out point i, which has q coordinates, lowers the sum of squares S by Qᵢ = rᵢᵀ(I − Hᵢᵢ)⁻¹rᵢ, and by pure
/// chance (Qᵢ/q)/((S − Qᵢ)/(f − q)) follows F with q and f − q degrees of freedom (R. D. Cook, S. Weisberg, Residuals and Influence in Regression, 1982; from
/// memory). The point with the largest ratio stands out when its tail probability times the number of points is below <see cref="Significance"/>.
/// </summary>
internal static class LeaveOneOut
{
    /// <summary>An outlier is named when so large a residual comes by chance less often than this, over all points. Our own choice, without a source.</summary>
    internal const double Significance = 0.01;

    /// <summary>Residuals that are all below this are rounding, or as good as none; in metres.</summary>
    private const double AllGoodMetres = 1e-7;

    /// <summary>The other points check a coordinate of a point when at least this part of an error of it would show in its own residual.</summary>
    private const double Checked = 1e-6;

    /// <summary>Finds the outlier. The design may have more rows than there are residuals: the rows of priors, which count in the covariance only.</summary>
    internal static Outlier? Find(double[,] design, double[,] covariance, double[] residuals, int coordinates)
    {
        var points = residuals.Length / coordinates;
        var left = residuals.Length - covariance.GetLength(0) - coordinates;
        if (left < 1 || residuals.All(r => Math.Abs(r) < AllGoodMetres))
        {
            return null;
        }

        var (most, at) = (0.0, -1);
        for (var i = 0; i < points; i++)
        {
            var taken = Taken(design, covariance, residuals, coordinates, i);
            (most, at) = taken > most ? (taken, i) : (most, at);
        }

        if (at < 0)
        {
            return null;
        }

        var rest = Math.Max(residuals.Sum(r => r * r) - most, 1e-16 * most);
        var ratio = most / coordinates / (rest / left);
        var probability = Math.Min(1, points * Tail(ratio, coordinates, left));
        return probability < Significance ? new(at, ratio, probability) : null;
    }

    /// <summary>How often F with these degrees of freedom is larger than a value.</summary>
    internal static double Tail(double ratio, int above, int below) =>
        SpecialFunctions.BetaRegularized(below / 2.0, above / 2.0, below / (below + above * ratio));

    /// <summary>Qᵢ; 0 when the other points don't check the point.</summary>
    private static double Taken(double[,] design, double[,] covariance, double[] residuals, int coordinates, int point)
    {
        var shown = new double[coordinates * coordinates];
        for (var i = 0; i < coordinates; i++)
        {
            for (var j = 0; j < coordinates; j++)
            {
                shown[i + coordinates * j] = (i == j ? 1 : 0) - Leverage(design, covariance, point * coordinates + i, point * coordinates + j);
            }
        }

        var (u, s, _) = Factors.Singular(shown, coordinates);
        var taken = 0.0;
        for (var k = 0; k < coordinates; k++)
        {
            var along = 0.0;
            for (var i = 0; i < coordinates; i++)
            {
                along += u[i + coordinates * k] * residuals[point * coordinates + i];
            }

            taken += along * along / s[k];
        }

        return s[^1] > Checked ? taken : 0;
    }

    private static double Leverage(double[,] design, double[,] covariance, int row, int other)
    {
        var (sum, columns) = (0.0, covariance.GetLength(0));
        for (var i = 0; i < columns; i++)
        {
            for (var j = 0; j < columns; j++)
            {
                sum += design[row, i] * covariance[i, j] * design[other, j];
            }
        }

        return sum;
    }
}
