namespace Stockseat.Seating.Fitting;

/// <summary>The problem made linear at one state: the columns of the frame, then those of the values, over σ; below them one row for each prior.</summary>
internal sealed record LocatorStep(FrameDesign Design, double[,] Rows, double[] Right, LeastSquares Solution)
{
    /// <summary>
    /// A direction counts as not seen when the touches' information about it is below this part of the prior's: they shrink its uncertainty by less than
    /// 1 in 200. Our own choice, without a source.
    /// </summary>
    internal const double NextToNothing = 0.01;

    /// <summary>
    /// A parameter belongs to a direction when its part is at least this part of the greatest, in units of the priors. Our own choice, without a source.
    /// </summary>
    private const double Belongs = 0.1;

    internal double OfValue(int parameter) => Solution.Values[Design.Columns + parameter];

    internal double Variance(int parameter) => Solution.CovariancePerUnit[Design.Columns + parameter, Design.Columns + parameter];

    internal static LocatorStep At(LocatorState state, LocatorTask task, Frames.Vector3[][] slopes, double sigma)
    {
        var (design, count) = (task.Design, task.Parameters.Count);
        var rows = design.Of(state.PlanMetres, count, count);
        var right = design.Coordinate(state.Residuals, count);
        var touched = right.Length - count;
        for (var j = 0; j < count; j++)
        {
            var column = design.Coordinate(slopes[j]);
            for (var i = 0; i < touched; i++)
            {
                rows[i, design.Columns + j] = column[i];
            }
        }

        for (var k = 0; k < touched * rows.GetLength(1); k++)
        {
            rows[k / rows.GetLength(1), k % rows.GetLength(1)] /= sigma;
        }

        for (var i = 0; i < touched; i++)
        {
            right[i] /= sigma;
        }

        for (var j = 0; j < count; j++)
        {
            var (_, drawing, prior) = task.Parameters[j];
            rows[touched + j, design.Columns + j] = 1 / prior;
            right[touched + j] = (drawing - state.Values[j]) / prior;
        }

        return LeastSquares.TrySolve(rows, right, out var solution)
            ? new(design, rows, right, solution!)
            : throw new InvalidOperationException("a frame that was fitted, and parameters with priors, left dependent columns");
    }

    /// <summary>
    /// Which parameters the touches alone don't determine. Their information about the parameters is taken with the frame eliminated and in units of the
    /// priors; where a direction has a singular value below <see cref="NextToNothing"/>, the parameters that belong to that direction are named.
    /// </summary>
    internal IReadOnlyList<string> Indistinct(LocatorTask task)
    {
        var count = task.Parameters.Count;
        var told = Enumerable.Range(0, count).Select(j => WithoutFrame(j, count, task.Parameters[j].PriorStandard)).ToArray();
        var information = new double[count * count];
        for (var k = 0; k < information.Length; k++)
        {
            information[k] = told[k % count].Zip(told[k / count], (a, b) => a * b).Sum();
        }

        var (u, s, _) = Factors.Singular(information, count);
        var named = new bool[count];
        for (var k = 0; k < count; k++)
        {
            var parts = Enumerable.Range(0, count).Select(j => Math.Abs(u[j + count * k])).ToArray();
            for (var j = 0; j < count && s[k] < NextToNothing; j++)
            {
                named[j] |= parts[j] >= Belongs * parts.Max();
            }
        }

        return [.. task.Parameters.Where((_, j) => named[j]).Select(p => p.Name)];
    }

    /// <summary>The column of a parameter for the touches, times its prior, minus the part that a change of the frame explains as well.</summary>
    private IReadOnlyList<double> WithoutFrame(int parameter, int count, double prior)
    {
        var touched = Right.Length - count;
        var (frame, column) = (new double[touched, Design.Columns], new double[touched]);
        for (var i = 0; i < touched; i++)
        {
            column[i] = prior * Rows[i, Design.Columns + parameter];
            for (var j = 0; j < Design.Columns; j++)
            {
                frame[i, j] = Rows[i, j];
            }
        }

        return LeastSquares.TrySolve(frame, column, out var imitated) ? imitated!.Residuals : column;
    }
}
