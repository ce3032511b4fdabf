namespace Stockseat.Seating.Fitting;

/// <summary>
/// The linear least-squares problem min |A·x − b|², by A = Q·R and the singular values of R.
/// <para>Symbols: A the design, n rows by p columns; b the right-hand side; C = (AᵀA)⁻¹, the covariance of x for a standard deviation of 1 of each b.</para>
/// </summary>
public sealed class LeastSquares
{
    /// <summary>The columns, brought to about unit length, count as dependent when the smallest singular value is below this part of the largest.</summary>
    public const double DependentBelow = 1e-12;

    private LeastSquares(double[] values, double[,] covariancePerUnit, double[] residuals)
    {
        Values = values;
        CovariancePerUnit = covariancePerUnit;
        Residuals = residuals;
        SumOfSquares = residuals.Sum(r => r * r);
    }

    /// <summary>x.</summary>
    public IReadOnlyList<double> Values { get; }

    /// <summary>C; times σ² it is the covariance of x.</summary>
    public double[,] CovariancePerUnit { get; }

    /// <summary>b − A·x.</summary>
    public IReadOnlyList<double> Residuals { get; }

    /// <summary>The sum of the squared residuals.</summary>
    public double SumOfSquares { get; }

    /// <summary>Solves the problem.</summary>
    /// <param name="design">A, with at least as many rows as columns.</param>
    /// <param name="right">b.</param>
    /// <param name="solution">The solution; null when the columns are dependent.</param>
    /// <returns>Whether the columns are independent, see <see cref="DependentBelow"/>.</returns>
    public static bool TrySolve(double[,] design, IReadOnlyList<double> right, out LeastSquares? solution)
    {
        var (rows, columns) = (design.GetLength(0), design.GetLength(1));
        if (rows < columns || right.Count != rows)
        {
            throw new ArgumentException(
                $"{rows} rows for {columns} columns and {right.Count} values; as many values as rows and no fewer rows than columns are needed",
                nameof(design));
        }

        solution = null;
        var scale = new double[columns];
        var (q, r) = Factors.Thin(Scaled(design, scale), rows, columns);
        var (u, s, vt) = Factors.Singular(r, columns);
        if (!(s[^1] > DependentBelow * s[0]))
        {
            return false;
        }

        // X = V·diag(1/s), so that C = X·Xᵀ and x = X·Uᵀ·Qᵀ·b, each row times its column's scale.
        var (values, x) = (new double[columns], new double[columns, columns]);
        for (var k = 0; k < columns; k++)
        {
            var along = AlongSingular(q, u, k, right, columns);
            for (var i = 0; i < columns; i++)
            {
                x[i, k] = scale[i] * vt[k + columns * i] / s[k];
                values[i] += x[i, k] * along;
            }
        }

        solution = new(values, TimesTransposed(x), Left(design, values, right));
        return true;
    }

    /// <summary>
    /// The columns of the design, each times the power of two that brings its length near 1: that is exact, and removes the effect of the columns' units.
    /// </summary>
    private static double[] Scaled(double[,] design, double[] scale)
    {
        var (rows, columns) = (design.GetLength(0), design.GetLength(1));
        var scaled = new double[rows * columns];
        for (var j = 0; j < columns; j++)
        {
            var square = 0.0;
            for (var i = 0; i < rows; i++)
            {
                square += design[i, j] * design[i, j];
            }

            scale[j] = square > 0 ? Math.ScaleB(1, -Math.ILogB(Math.Sqrt(square))) : 1;
            for (var i = 0; i < rows; i++)
            {
                scaled[i + rows * j] = scale[j] * design[i, j];
            }
        }

        return scaled;
    }

    private static double AlongSingular(double[] q, double[] u, int k, IReadOnlyList<double> right, int columns)
    {
        var sum = 0.0;
        for (var j = 0; j < columns; j++)
        {
            var projected = 0.0;
            for (var i = 0; i < right.Count; i++)
            {
                projected += q[i + right.Count * j] * right[i];
            }

            sum += u[j + columns * k] * projected;
        }

        return sum;
    }

    private static double[,] TimesTransposed(double[,] x)
    {
        var order = x.GetLength(0);
        var product = new double[order, order];
        for (var i = 0; i < order; i++)
        {
            for (var j = 0; j < order; j++)
            {
                for (var k = 0; k < order; k++)
                {
                    product[i, j] += x[i, k] * x[j, k];
                }
            }
        }

        return product;
    }

    private static double[] Left(double[,] design, double[] values, IReadOnlyList<double> right)
    {
        var left = new double[right.Count];
        for (var i = 0; i < left.Length; i++)
        {
            left[i] = right[i];
            for (var j = 0; j < values.Length; j++)
            {
                left[i] -= design[i, j] * values[j];
            }
        }

        return left;
    }
}
