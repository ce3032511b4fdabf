using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Fitting;

/// <summary>
/// The ratios of measured pitch to drawn pitch along u and v, and the angle between the two axes minus a right angle: from the best affine map of the plan onto
/// the found points, in the plan of the fitted frame. Points in one line along an axis give the scale along that axis only; points in any other line give none.
/// </summary>
internal readonly record struct AffineScale(double? AlongU, double? AlongV, double? SquarenessRadians)
{
    internal static AffineScale Of(Vector3[] plan, Vector3[] residuals)
    {
        var drawn = plan.Select(p => new Vector3(p.X, p.Y, 0)).ToArray();
        var spread = Spread.Of(drawn, null);
        if (spread.IsOneLine)
        {
            var (alongU, alongV) = (Math.Abs(spread.Along.Y) <= Spread.OneLine, Math.Abs(spread.Along.X) <= Spread.OneLine);
            return new(alongU ? 1 + Slope(plan, residuals, p => p.X) : null, alongV ? 1 + Slope(plan, residuals, p => p.Y) : null, null);
        }

        // The affine map of the residuals, added to the identity: so no digits are lost to the size of the layout.
        var (byU, byV) = (Map(plan, residuals, r => r.X), Map(plan, residuals, r => r.Y));
        var (u, v) = (new PlanVector(1 + byU.U, byV.U), new PlanVector(byU.V, 1 + byV.V));
        return new(u.Length, v.Length, Math.Atan2(PlanVector.Cross(u, v), PlanVector.Dot(u, v)) - Math.PI / 2);
    }

    private static double Slope(Vector3[] plan, Vector3[] residuals, Func<Vector3, double> coordinate)
    {
        var mean = plan.Average(coordinate);
        var square = plan.Sum(p => (coordinate(p) - mean) * (coordinate(p) - mean));
        return plan.Select((p, i) => (coordinate(p) - mean) * coordinate(residuals[i])).Sum() / square;
    }

    private static PlanVector Map(Vector3[] plan, Vector3[] residuals, Func<Vector3, double> coordinate)
    {
        var design = new double[plan.Length, 3];
        for (var i = 0; i < plan.Length; i++)
        {
            (design[i, 0], design[i, 1], design[i, 2]) = (1, plan[i].X, plan[i].Y);
        }

        return LeastSquares.TrySolve(design, [.. residuals.Select(coordinate)], out var map) ? new(map!.Values[1], map.Values[2]) : default;
    }
}
