using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Fitting;

/// <summary>
/// How the coordinates of fitted points change with the frame, in plan axes: x moves by θ × x + t. With a free normal: all three coordinates, by θu, θv, θw,
/// tu, tv, tw. With a held normal: u and v only, by θw, tu, tv.
/// </summary>
internal readonly record struct FrameDesign(bool NormalHeld)
{
    internal int Coordinates => NormalHeld ? 2 : 3;

    internal int Columns => NormalHeld ? 3 : 6;

    /// <summary>The rows of all points, one below the other, with room for more rows and columns.</summary>
    internal double[,] Of(IReadOnlyList<Vector3> planMetres, int moreRows = 0, int moreColumns = 0)
    {
        var design = new double[planMetres.Count * Coordinates + moreRows, Columns + moreColumns];
        for (var i = 0; i < planMetres.Count; i++)
        {
            var (x, y, z) = planMetres[i];
            double[][] rows = NormalHeld
                ? [[-y, 1, 0], [x, 0, 1]]
                : [[0, z, -y, 1, 0, 0], [-z, 0, x, 0, 1, 0], [y, -x, 0, 0, 0, 1]];
            for (var k = 0; k < rows.Length * Columns; k++)
            {
                design[i * Coordinates + k / Columns, k % Columns] = rows[k / Columns][k % Columns];
            }
        }

        return design;
    }

    /// <summary>The coordinates that the fit is judged by, one point after the other, with room for more.</summary>
    internal double[] Coordinate(IReadOnlyList<Vector3> plan, int more = 0)
    {
        var values = new double[plan.Count * Coordinates + more];
        for (var i = 0; i < plan.Count; i++)
        {
            var at = i * Coordinates;
            (values[at], values[at + 1]) = (plan[i].X, plan[i].Y);
            if (!NormalHeld)
            {
                values[at + 2] = plan[i].Z;
            }
        }

        return values;
    }

    /// <summary>
    /// The covariance of θ and t: the leading block of the covariance of a fit, times σ². With a held normal, the height is the mean of the touched heights.
    /// </summary>
    internal FrameCovariance Covariance(double[,] fitted, double variance, int points)
    {
        var (six, first) = (new double[6, 6], NormalHeld ? 2 : 0);
        for (var k = 0; k < Columns * Columns; k++)
        {
            var (i, j) = (k / Columns, k % Columns);
            six[first + i, first + j] = variance * fitted[i, j];
        }

        if (NormalHeld)
        {
            six[5, 5] = variance / points;
        }

        return new(six, NormalHeld);
    }
}
