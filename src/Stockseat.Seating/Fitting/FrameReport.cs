using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Fitting;

/// <summary>What the touched points say about a frame that was fitted to them.</summary>
internal static class FrameReport
{
    internal static FrameFit Of(Vector3[] plan, Vector3[] found, PlanFrame frame, Vector3 stated, bool held)
    {
        var (drawn, middle) = (Spread.Centroid(plan, null), Spread.Centroid(found, null));
        var origin = middle - (drawn.X * frame.U + drawn.Y * frame.V + drawn.Z * frame.W);
        var residuals = Residuals(plan, found, frame);
        var worst = Worst(residuals);
        var design = new FrameDesign(held);
        var freedom = plan.Length * design.Coordinates - design.Columns;
        var judged = design.Coordinate(residuals);
        var square = judged.Sum(r => r * r);
        var rows = design.Of(plan);
        var covariance = LeastSquares.TrySolve(rows, judged, out var linear) ? linear!.CovariancePerUnit : null;
        var affine = AffineScale.Of(plan, residuals);
        return new()
        {
            Frame = frame,
            OriginMetres = origin,
            NormalHeld = held,
            ResidualsPlan = residuals,
            RmsMetres = Math.Sqrt(residuals.Average(r => Vector3.Dot(r, r))),
            WorstMetres = residuals[worst].Length,
            Worst = worst,
            SpreadMetres = held ? Spread.Of([.. plan.Select(p => new Vector3(p.X, p.Y, 0))], null).Longest : Spread.Of(plan, null).Second,
            FlatnessMetres = held || plan.Length <= 3 ? null : residuals.Max(r => r.Z) - residuals.Min(r => r.Z),
            ScaleAlongU = affine.AlongU,
            ScaleAlongV = affine.AlongV,
            SquarenessRadians = affine.SquarenessRadians,
            NormalTiltRadians = held ? 0 : Math.Atan2(Vector3.Cross(stated, frame.W).Length, Vector3.Dot(stated, frame.W)),
            Trend = held ? RowTrend.Find(plan, residuals, frame) : null,
            DegreesOfFreedom = freedom,
            SigmaMetres = freedom > 0 ? Math.Sqrt(square / freedom) : null,
            Covariance = freedom > 0 && covariance is not null ? design.Covariance(covariance, square / freedom, plan.Length) : null,
            Outlier = covariance is null ? null : LeaveOneOut.Find(rows, covariance, judged, design.Coordinates),
        };
    }

    /// <summary>Found minus fitted, along u, v, w; both sets are taken about their centroids.</summary>
    internal static Vector3[] Residuals(Vector3[] plan, Vector3[] found, PlanFrame frame)
    {
        var (drawn, middle) = (Spread.Centroid(plan, null), Spread.Centroid(found, null));
        return [.. found.Select((p, i) => InPlan(frame, p - middle) - (plan[i] - drawn))];
    }

    private static Vector3 InPlan(PlanFrame frame, Vector3 d) => new(Vector3.Dot(frame.U, d), Vector3.Dot(frame.V, d), Vector3.Dot(frame.W, d));

    private static int Worst(Vector3[] residuals)
    {
        var worst = 0;
        for (var i = 1; i < residuals.Length; i++)
        {
            worst = residuals[i].Length > residuals[worst].Length ? i : worst;
        }

        return worst;
    }
}
