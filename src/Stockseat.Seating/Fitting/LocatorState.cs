using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Fitting;

/// <summary>The values at one step, with the frame that fits them best.</summary>
internal sealed record LocatorState(double[] Values, Vector3[] PlanMetres, PlanFrame Frame, Vector3[] Residuals, double[] Judged)
{
    internal double SumOfSquares { get; } = Judged.Sum(r => r * r);

    /// <summary>The sum that is minimised: the squares of the residuals over σ, and of the values' differences from the drawing over their priors.</summary>
    internal double Objective(LocatorTask task, double sigma) =>
        SumOfSquares / (sigma * sigma) + task.Parameters.Select((p, j) => Square((Values[j] - p.Drawing) / p.PriorStandard)).Sum();

    internal static LocatorFitOutcome? Try(LocatorTask task, double[] values, out LocatorState? state)
    {
        state = null;
        if (!task.TrySeats(values, out var plan, out var touch))
        {
            return LocatorFitter.NoSeat(touch);
        }

        var fault = FrameFitter.TryFrame(plan, task.Found, task.Up, task.Held, out var frame);
        if (fault != FrameFitFault.None)
        {
            return new(LocatorFitFault.Frame, null, fault, [], null);
        }

        var residuals = FrameReport.Residuals(plan, task.Found, frame);
        state = new(values, plan, frame, residuals, task.Design.Coordinate(residuals));
        return null;
    }

    private static double Square(double x) => x * x;
}
