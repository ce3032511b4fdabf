namespace Stockseat.Audit.Tests.Explaining;

/// <summary>
/// How far a centre moves when a locator moves, by differences: the centre is found from the two conditions of contact alone, |C - P| = R + r and
/// n . (C - F) = R, by Newton's method. A pin is u, v, r; a face is u, v and the direction of its normal in radians.
/// </summary>
internal sealed record Touching((bool Pin, double[] At)[] Nest, double Radius, double Taught)
{
    private const double Step = 1e-6;

    /// <summary>Both centres: at the radius and at the taught radius.</summary>
    public (double[] Here, double[] There) Centres => (Centre(Nest, Radius), Centre(Nest, Taught));

    /// <summary>
    /// Root of the sum of squares over perturbations, along and across. The locators of another nest are not those of the taught nest.
    /// </summary>
    /// <param name="sameNest">Whether it is the taught nest.</param>
    /// <param name="moves">What each perturbation does to a locator, per unit of the perturbation.</param>
    public (double Along, double Across) Sum(bool sameNest, params Action<(bool Pin, double[] At)[], double>[] moves)
    {
        var (along, across) = (0.0, 0.0);
        foreach (var move in moves)
        {
            var (here, there) = (Slope(move, Radius), Slope(move, Taught));
            double[][] parts = sameNest ? [[here[0] - there[0], here[1] - there[1]]] : [here, there];
            across += parts.Sum(p => p[0] * p[0]);
            along += parts.Sum(p => p[1] * p[1]);
        }

        return (Math.Sqrt(along), Math.Sqrt(across));
    }

    /// <summary>dC/dR at a radius.</summary>
    public double[] PerRadius(double radius)
    {
        var (a, b) = (Centre(Nest, radius + Step), Centre(Nest, radius - Step));
        return [(a[0] - b[0]) / (2 * Step), (a[1] - b[1]) / (2 * Step)];
    }

    private double[] Slope(Action<(bool Pin, double[] At)[], double> move, double radius)
    {
        double[] At(double step)
        {
            var nest = Nest.Select(l => (l.Pin, (double[])l.At.Clone())).ToArray();
            move(nest, step);
            return Centre(nest, radius);
        }

        var (a, b) = (At(Step), At(-Step));
        return [(a[0] - b[0]) / (2 * Step), (a[1] - b[1]) / (2 * Step)];
    }

    private static double[] Centre((bool Pin, double[] At)[] nest, double radius)
    {
        double[] c = [0, 2 * radius];
        for (var i = 0; i < 50; i++)
        {
            var (f, n) = (new double[2], new double[2][]);
            for (var k = 0; k < 2; k++)
            {
                var at = nest[k].At;
                double[] d = [c[0] - at[0], c[1] - at[1]];
                var length = Math.Sqrt(d[0] * d[0] + d[1] * d[1]);
                n[k] = nest[k].Pin ? [d[0] / length, d[1] / length] : [Math.Cos(at[2]), Math.Sin(at[2])];
                f[k] = nest[k].Pin ? length - at[2] - radius : n[k][0] * d[0] + n[k][1] * d[1] - radius;
            }

            var det = n[0][0] * n[1][1] - n[0][1] * n[1][0];
            c = [c[0] - (f[0] * n[1][1] - f[1] * n[0][1]) / det, c[1] - (f[1] * n[0][0] - f[0] * n[1][0]) / det];
        }

        return c;
    }
}
