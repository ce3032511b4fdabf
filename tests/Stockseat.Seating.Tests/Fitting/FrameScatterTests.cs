using Stockseat.Seating.Fitting;
using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Tests.Fitting;

/// <summary>What the fit states about its own uncertainty and about outliers, compared with scatter from a fixed seed.</summary>
public class FrameScatterTests
{
    private const double Sigma = 20e-6;

    private static readonly Pose Motion = new(new(0.8, -0.3, 0.2), Rotation.FromAxisAngle(new(0.1, 0.2, 1), 0.6));

    private static readonly Vector3 Normal = Motion.Orientation.Apply(new(0, 0, 1));

    /// <summary>A point of the plan away from all nests.</summary>
    private static readonly Vector3 Apart = new(0.6, -0.4, 0.1);

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void SixNests_ScatterAsTheCovarianceStates(bool held) => Scatter(Layouts.SixNests, held);

    [Fact]
    public void ARowWithItsNormalHeld_ScattersAsTheCovarianceStates() => Scatter(Layouts.Row, true);

    /// <summary>4,000 draws: the standard deviation of a standard deviation is 1.1 %, so 5 % is more than four of them.</summary>
    private static void Scatter(Vector3[] plan, bool held)
    {
        const int Draws = 4000;
        var (random, truth) = (new Random(20261125), Layouts.Moved(plan, Motion));
        var (turns, origin, apart, variance, stated) = (new Sums(), new Sums(), new Sums(), 0.0, 0.0);
        FrameFit? fit = null;
        for (var i = 0; i < Draws; i++)
        {
            fit = FrameFitterTests.Fitted(Layouts.Scattered(truth, random, Sigma), Normal, held);
            variance += fit.SigmaMetres!.Value * fit.SigmaMetres.Value / Draws;
            stated += fit.Covariance!.AboutWRadians / fit.SigmaMetres.Value / Draws;
            turns.Add(TurnOf(fit.Frame));
            origin.Add(InPlan(fit.OriginMetres - Motion.PositionMetres));
            apart.Add(InPlan(fit.ToBase(Apart) - Motion.PositionMetres - Motion.Orientation.Apply(Apart)));
        }

        Ratio(Sigma, Math.Sqrt(variance));
        var scale = Sigma / fit!.SigmaMetres!.Value; // the covariance of this draw, scaled to the true sigma
        Ratio(scale * fit.Covariance!.AboutWRadians, turns.Deviation.Z);
        Close.To(stated, fit.Covariance.AboutWRadians / fit.SigmaMetres.Value, 1e-12 * stated); // depends on the layout only, the same each time
        Ratios(scale * fit.Covariance.OriginMetres, origin.Deviation);
        Ratios(scale * fit.Covariance.At(Apart), apart.Deviation);
        if (!held)
        {
            Ratio(scale * fit.Covariance.AboutURadians!.Value, turns.Deviation.X);
            Ratio(scale * fit.Covariance.AboutVRadians!.Value, turns.Deviation.Y);
        }
    }

    /// <summary>By hand for a row of five at a pitch p, normal held: turn σ/(p√10), position σ/√5 at its middle.</summary>
    [Fact]
    public void ARow_HasTheUncertaintyOfItsGeometry()
    {
        var fit = FrameFitterTests.Fitted(Layouts.Scattered(Layouts.Moved(Layouts.Row, Motion), new Random(1), Sigma), Normal, true);
        var sigma = fit.SigmaMetres!.Value;
        Close.To(sigma / (0.12 * Math.Sqrt(10)), fit.Covariance!.AboutWRadians, 1e-12);
        var inRow = sigma / Math.Sqrt(5);
        Close.To(new Vector3(inRow, inRow, inRow), fit.Covariance.At(Layouts.Row[2]), 1e-15);
        Close.To(new Vector3(inRow, Math.Sqrt(inRow * inRow + sigma * sigma * 0.4), inRow), fit.Covariance.At(Layouts.Row[4]), 1e-15);
        Close.To(sigma * sigma / 5 + 0.24 * 0.24 * sigma * sigma / (0.144 * 1), fit.Covariance[4, 4], 1e-20);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void APlantedOutlier_IsNamed(bool held)
    {
        const double Off = 0.5e-3;
        var random = new Random(7);
        for (var nest = 0; nest < 6; nest++)
        {
            var points = Layouts.Scattered(Layouts.Moved(Layouts.SixNests, Motion), random, Sigma);
            points[nest] = points[nest] with { BaseMetres = points[nest].BaseMetres + Motion.Orientation.Apply(new(0.6 * Off, 0.8 * Off, 0)) };
            var fit = FrameFitterTests.Fitted(points, Normal, held);
            Assert.Equal(nest, fit.Outlier?.Index);
            Assert.True(fit.Outlier!.Value.Probability < 0.01);
        }
    }

    /// <summary>The level of the outlier test: 1 % over all nests.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void PureScatter_NamesANestOnceInAHundredTimes(bool held)
    {
        const int Draws = 2000;
        var (random, truth, named) = (new Random(99), Layouts.Moved(Layouts.SixNests, Motion), 0);
        for (var i = 0; i < Draws; i++)
        {
            named += FrameFitterTests.Fitted(Layouts.Scattered(truth, random, Sigma), Normal, held).Outlier is null ? 0 : 1;
        }

        Assert.InRange(named, 7, 34); // 20 expected, ±3 standard deviations; found 20 with the normal free and 20 with it held
    }

    [Fact]
    public void ThreePoints_AreTooFewToNameAnOutlier()
    {
        Vector3[] three = [default, new(0.3, 0, 0), new(0, 0.3, 0)];
        var fit = FrameFitterTests.Fitted(
            [.. three.Select((p, i) => new TouchedPoint(p, p + (i == 1 ? new Vector3(0.01, 0, 0) : default)))], new(0, 0, 1), false);
        Assert.Null(fit.Outlier);
        Assert.Null(fit.FlatnessMetres); // any three lie in a plane
        Assert.Equal(3, fit.DegreesOfFreedom);
    }

    private static Vector3 InPlan(Vector3 d) => Motion.Orientation.ApplyInverse(d);

    /// <summary>The small turn from the true frame to the fitted one, in plan axes.</summary>
    private static Vector3 TurnOf(PlanFrame frame)
    {
        var (u, v, w) = (InPlan(frame.U), InPlan(frame.V), InPlan(frame.W));
        return new((v.Z - w.Y) / 2, (w.X - u.Z) / 2, (u.Y - v.X) / 2);
    }

    private static void Ratio(double stated, double found) => Close.To(1, found / stated, 0.05);

    private static void Ratios(Vector3 stated, Vector3 found)
    {
        Ratio(stated.X, found.X);
        Ratio(stated.Y, found.Y);
        Ratio(stated.Z, found.Z);
    }

    /// <summary>Root mean squares about 0, the true value.</summary>
    private sealed class Sums
    {
        private Vector3 squares;
        private int count;

        internal Vector3 Deviation => new(Math.Sqrt(squares.X / count), Math.Sqrt(squares.Y / count), Math.Sqrt(squares.Z / count));

        internal void Add(Vector3 d)
        {
            squares += new Vector3(d.X * d.X, d.Y * d.Y, d.Z * d.Z);
            count++;
        }
    }
}
