using MathNet.Numerics.Providers.LinearAlgebra;

namespace Stockseat.Seating.Fitting;

/// <summary>
/// The two factorizations that the fits need. MathNet's managed provider is called by its name. The library's own choice of a provider may load a native
/// library, whose last bits differ from machine to machine. Matrices are stored by columns.
/// </summary>
internal static class Factors
{
    /// <summary>A = U·diag(s)·Vᵀ of a square matrix, s in falling order.</summary>
    internal static (double[] U, double[] S, double[] Vt) Singular(double[] square, int order)
    {
        var (u, s, vt) = (new double[order * order], new double[order], new double[order * order]);
        ManagedLinearAlgebraProvider.Instance.SingularValueDecomposition(true, (double[])square.Clone(), order, order, s, u, vt);
        return (u, s, vt);
    }

    /// <summary>A = Q·R, where Q has as many columns as A. A needs at least as many rows as columns.</summary>
    internal static (double[] Q, double[] R) Thin(double[] matrix, int rows, int columns)
    {
        var (q, r) = ((double[])matrix.Clone(), new double[columns * columns]);
        ManagedLinearAlgebraProvider.Instance.ThinQRFactor(q, rows, columns, r, new double[columns]);
        return (q, r);
    }

    /// <summary>The determinant of a matrix of order 3, stored by columns.</summary>
    internal static double Determinant3(double[] m) =>
        m[0] * (m[4] * m[8] - m[5] * m[7]) - m[3] * (m[1] * m[8] - m[2] * m[7]) + m[6] * (m[1] * m[5] - m[2] * m[4]);
}
