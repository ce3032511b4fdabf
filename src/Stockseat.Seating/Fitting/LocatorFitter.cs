using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;

namespace Stockseat.Seating.Fitting;

/// <summary>
/// Fits values of the locators, and the frame, to masters of several diameters: the minimum of Σ|found − fitted|²/σ² + Σ((value − drawing)/prior)².
/// Gauss-Newton steps, each halved until it lowers the sum. At each state the frame is the one that fits the values best (G. H. Golub, V. Pereyra, SIAM Journal
/// on Numerical Analysis 10, 1973; from memory), so the iteration is over the values only. σ is stated, or found together with the values: the sum of squares
/// over the degrees of freedom, of which each value uses up the part that the touches determine, not its prior.
/// </summary>
public static class LocatorFitter
{
    private const int MostSteps = 200;

    /// <summary>The iteration ends when no value moves by more than this part of its prior.</summary>
    private const double AtRest = 1e-7;

    /// <summary>Touches with no scatter at all would have an unlimited weight, so σ is at least this: no robot repeats to a nanometre.</summary>
    private const double LeastSigmaMetres = 1e-9;

    /// <summary>Fits the values.</summary>
    /// <param name="touches">The touched masters.</param>
    /// <param name="parameters">What to fit, one or more.</param>
    /// <param name="nestOf">The nest for given values of the parameters, in their order; null where there is no such nest.</param>
    /// <param name="normal">The stated normal out of the plan in base.</param>
    /// <param name="holdNormal">Whether it is taken as stated.</param>
    /// <param name="touchingStandardMetres">The standard deviation of one touch along one axis, above 0; null: estimated from the residuals.</param>
    /// <returns>The fit, or the fault. To estimate σ there must be at least one coordinate more than frame and parameters have unknowns.</returns>
    public static LocatorFitOutcome Fit(
        IReadOnlyList<MasterTouch> touches,
        IReadOnlyList<LocatorParameter> parameters,
        Func<IReadOnlyList<double>, Nest?> nestOf,
        Vector3 normal,
        bool holdNormal,
        double? touchingStandardMetres)
    {
        Require(parameters, normal, touchingStandardMetres);
        var task = new LocatorTask(touches, parameters, nestOf, 1 / normal.Length * normal, holdNormal);
        if (LocatorState.Try(task, [.. parameters.Select(p => p.Drawing)], out var state) is { } fault)
        {
            return fault;
        }

        var freedom = state!.Judged.Length - task.Design.Columns - parameters.Count;
        if (touchingStandardMetres is null && freedom < 1)
        {
            return new(LocatorFitFault.Frame, null, FrameFitFault.TooFew, [], null);
        }

        var sigma = touchingStandardMetres ?? Math.Max(Math.Sqrt(state.SumOfSquares / (freedom + parameters.Count)), LeastSigmaMetres);
        for (var steps = 1; steps <= MostSteps; steps++)
        {
            if (!task.TrySlopes(state.Values, out var slopes, out var touch))
            {
                return NoSeat(touch);
            }

            var step = LocatorStep.At(state, task, slopes, sigma);
            if (Moved(task, state, step, sigma) is not { } next)
            {
                break;
            }

            var nextSigma = touchingStandardMetres ?? Estimated(task, next, step);
            var rests = Rests(task, state, next) && Math.Abs(nextSigma - sigma) <= 1e-6 * sigma;
            (state, sigma) = (next, nextSigma);
            if (rests)
            {
                return Outcome(task, state, step, new(sigma, touchingStandardMetres is null, steps, freedom));
            }
        }

        return new(LocatorFitFault.NotConverged, null, FrameFitFault.None, [], null);
    }

    internal static LocatorFitOutcome NoSeat(int touch) => new(LocatorFitFault.NoSeat, null, FrameFitFault.None, [], touch);

    /// <summary>The state after the whole step, or after a half of it, a quarter and so on: the first one that is not worse.</summary>
    private static LocatorState? Moved(LocatorTask task, LocatorState state, LocatorStep step, double sigma)
    {
        var before = state.Objective(task, sigma);
        for (var part = 1.0; part > 1e-6; part /= 2)
        {
            double[] values = [.. state.Values.Select((v, j) => v + part * step.OfValue(j))];
            if (LocatorState.Try(task, values, out var next) is null && next!.Objective(task, sigma) <= before + 1e-9 * (1 + before))
            {
                return next;
            }
        }

        return null;
    }

    private static bool Rests(LocatorTask task, LocatorState state, LocatorState next) =>
        task.Parameters.Select((p, j) => Math.Abs(next.Values[j] - state.Values[j]) <= AtRest * p.PriorStandard).All(rests => rests);

    private static double Estimated(LocatorTask task, LocatorState state, LocatorStep step)
    {
        var byTouches = task.Parameters.Select((p, j) => 1 - step.Variance(j) / (p.PriorStandard * p.PriorStandard)).Sum();
        return Math.Max(Math.Sqrt(state.SumOfSquares / (state.Judged.Length - task.Design.Columns - byTouches)), LeastSigmaMetres);
    }

    private static LocatorFitOutcome Outcome(LocatorTask task, LocatorState state, LocatorStep step, Closing closing)
    {
        var indistinct = step.Indistinct(task);
        if (indistinct.Count > 0)
        {
            return new(LocatorFitFault.Indistinct, null, FrameFitFault.None, indistinct, null);
        }

        var (variance, perUnit) = (closing.Sigma * closing.Sigma, (double[,])step.Solution.CovariancePerUnit.Clone());
        for (var k = 0; k < perUnit.Length; k++)
        {
            perUnit[k / perUnit.GetLength(1), k % perUnit.GetLength(1)] /= variance;
        }

        var frame = FrameReport.Of(state.PlanMetres, task.Found, state.Frame, task.Up, task.Held) with
        {
            DegreesOfFreedom = Math.Max(closing.Freedom, 0),
            SigmaMetres = closing.Sigma,
            Covariance = task.Design.Covariance(perUnit, variance, task.Touches.Count),
            Outlier = LeaveOneOut.Find(step.Rows, step.Solution.CovariancePerUnit, state.Judged, task.Design.Coordinates),
        };
        var fitted = task.Parameters.Select((p, j) => new FittedParameter(
            p.Name, state.Values[j], Math.Sqrt(step.Variance(j)), p.Drawing, Math.Sqrt(step.Variance(j)) / p.PriorStandard));
        return new(
            LocatorFitFault.None,
            new()
            {
                Parameters = [.. fitted], Frame = frame, TouchingStandardMetres = closing.Sigma, TouchingEstimated = closing.Estimated, Steps = closing.Steps,
            },
            FrameFitFault.None,
            [],
            null);
    }

    private static void Require(IReadOnlyList<LocatorParameter> parameters, Vector3 normal, double? touchingStandardMetres)
    {
        if (!(normal.Length > 0) || !double.IsFinite(normal.Length))
        {
            throw new ArgumentOutOfRangeException(nameof(normal), normal, "a normal of positive, finite length");
        }

        if (parameters.Count == 0 || parameters.Any(p => !(p.PriorStandard > 0) || !double.IsFinite(p.PriorStandard) || !double.IsFinite(p.Drawing)))
        {
            throw new ArgumentOutOfRangeException(nameof(parameters), parameters.Count, "one parameter or more, each finite and with a prior above 0");
        }

        if (touchingStandardMetres is { } stated && (!(stated > 0) || !double.IsFinite(stated)))
        {
            throw new ArgumentOutOfRangeException(nameof(touchingStandardMetres), stated, "a standard deviation above 0, or null");
        }
    }

    private readonly record struct Closing(double Sigma, bool Estimated, int Steps, int Freedom);
}
