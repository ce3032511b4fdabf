using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Fitting;

/// <summary>
/// Nests in one line whose residuals out of the plan grow evenly along it. One line can't show the turn about itself, so its fit holds the normal as stated;
/// but a line that rises out of the plan is not square to the stated normal, and shows by how much that is turned.
/// </summary>
/// <param name="AlongPlan">The direction of the line in the plan (u, v, 0), a unit vector that points to growing u, or to growing v.</param>
/// <param name="SlopeRadians">By how much the line rises out of the plan along it: how far the stated normal is turned about the direction across the
/// line.</param>
/// <param name="RiseMetres">The rise from the first touched nest to the last, in metres.</param>
/// <param name="Normal">The normal that is square to the line, nearest to the stated one: a unit vector in base.</param>
/// <param name="Probability">How often chance alone gives so straight a trend.</param>
public sealed record RowTrend(Vector3 AlongPlan, double SlopeRadians, double RiseMetres, Vector3 Normal, double Probability)
{
    /// <summary>A trend is told when chance gives it less often than this. Our own choice, without a source.</summary>
    internal const double Significance = 0.05;

    /// <summary>A trend is straight when it explains at least this part of the sum of squares. Our own choice, without a source.</summary>
    private const double Straight = 0.8;

    /// <summary>A smaller rise does not matter to any robot, in metres.</summary>
    private const double LeastMetres = 1e-5;

    /// <summary>Places nearer than this part of the line's length count as one: masters of several diameters in one nest.</summary>
    private const double OnePlace = 0.01;

    /// <summary>Points that spread across the line by more than this part of their spread along it are not a row.</summary>
    private const double Row = 0.2;

    /// <summary>Finds the trend; null when the points are no row of three places or more, or when their residuals don't grow evenly.</summary>
    internal static RowTrend? Find(Vector3[] plan, Vector3[] residuals, PlanFrame frame)
    {
        var flat = plan.Select(p => new Vector3(p.X, p.Y, 0)).ToArray();
        var spread = Spread.Of(flat, null);
        if (spread.IsOnePlace || spread.Second > Row * spread.Longest)
        {
            return null;
        }

        var along = (Math.Abs(spread.Along.X) >= Math.Abs(spread.Along.Y) ? spread.Along.X : spread.Along.Y) < 0 ? -1 * spread.Along : spread.Along;
        var middle = Spread.Centroid(flat, null);
        var at = flat.Select(p => Vector3.Dot(p - middle, along)).ToArray();
        var length = at.Max() - at.Min();
        if (Places(at, OnePlace * length) < 3)
        {
            return null;
        }

        // The residuals out of the plan are about their mean already.
        var (along2, both, out2) = (at.Sum(a => a * a), at.Zip(residuals, (a, r) => a * r.Z).Sum(), residuals.Sum(r => r.Z * r.Z));
        var (slope, explained) = (both / along2, both * both / along2);
        var freedom = plan.Length - 2;
        var rest = Math.Max(out2 - explained, 1e-16 * out2);
        if (!(Math.Abs(slope * length) > LeastMetres) || explained < Straight * out2
            || LeaveOneOut.Tail(explained / (rest / freedom), 1, freedom) is var chance && chance > Significance)
        {
            return null;
        }

        var normal = frame.W - (slope * ((along.X * frame.U) + (along.Y * frame.V)));
        return new(along, Math.Atan(slope), slope * length, 1 / normal.Length * normal, chance);
    }

    private static int Places(double[] at, double apart)
    {
        var (count, last) = (0, double.NegativeInfinity);
        foreach (var place in at.Order())
        {
            if (place - last > apart)
            {
                (count, last) = (count + 1, place);
            }
        }

        return count;
    }
}
