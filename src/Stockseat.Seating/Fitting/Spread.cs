using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Fitting;

/// <summary>How far points spread from their centroid: the singular values of the centred points, in falling order.</summary>
/// <param name="Longest">Along the line in which they spread most, in metres.</param>
/// <param name="Second">Along the best direction square to it.</param>
/// <param name="Along">The unit vector of the first direction, of either sign.</param>
internal readonly record struct Spread(double Longest, double Second, Vector3 Along)
{
    /// <summary>Points that spread less than this lie in one place, in metres: no two nests are so close.</summary>
    internal const double OnePlaceMetres = 1e-6;

    /// <summary>
    /// Points whose second spread is below this part of the first lie in one line. Touches scatter by some 10⁻⁴ of the length of a rack, so measured points of
    /// a true line stay below it. Points with less spread than that would turn such scatter into a tenth of a radian about the line. Our own choice, without a
    /// source.
    /// </summary>
    internal const double OneLine = 1e-3;

    internal bool IsOnePlace => !(Longest > OnePlaceMetres);

    internal bool IsOneLine => !(Second > OneLine * Longest);

    /// <summary>The spread of points, each with its weight.</summary>
    internal static Spread Of(IReadOnlyList<Vector3> points, IReadOnlyList<double>? weights)
    {
        var (u, squares, _) = Factors.Singular(Scatter(points, points, weights), 3);
        return new(Math.Sqrt(squares[0]), Math.Sqrt(squares[1]), new(u[0], u[1], u[2]));
    }

    /// <summary>Σ w·(y − ȳ)(x − x̄)ᵀ, by columns.</summary>
    internal static double[] Scatter(IReadOnlyList<Vector3> ys, IReadOnlyList<Vector3> xs, IReadOnlyList<double>? weights)
    {
        var (meanX, meanY) = (Centroid(xs, weights), Centroid(ys, weights));
        var scatter = new double[9];
        for (var i = 0; i < xs.Count; i++)
        {
            var (x, y) = (xs[i] - meanX, (weights?[i] ?? 1) * (ys[i] - meanY));
            double[] products = [y.X * x.X, y.Y * x.X, y.Z * x.X, y.X * x.Y, y.Y * x.Y, y.Z * x.Y, y.X * x.Z, y.Y * x.Z, y.Z * x.Z];
            for (var k = 0; k < 9; k++)
            {
                scatter[k] += products[k];
            }
        }

        return scatter;
    }

    internal static Vector3 Centroid(IReadOnlyList<Vector3> points, IReadOnlyList<double>? weights)
    {
        var (sum, total) = (default(Vector3), 0.0);
        for (var i = 0; i < points.Count; i++)
        {
            var weight = weights?[i] ?? 1;
            sum += weight * points[i];
            total += weight;
        }

        return 1 / total * sum;
    }
}
