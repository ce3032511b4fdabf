using Stockseat.Seating.Fitting;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Seats;

namespace Stockseat.Seating.Tests.Fitting;

/// <summary>Two equal pins, drawn 30 mm apart and 10 mm in diameter, and a vee of 90°; masters of several diameters, each touched in six nests.</summary>
public class LocatorFitterTests
{
    private static readonly Vector3 Up = new(0, 0, 1);

    private static readonly Pose Motion = new(new(0.8, -0.3, 0.2), Rotation.FromAxisAngle(new(0.1, 0.2, 1), 0.6));

    private static readonly Vector3 Normal = Motion.Orientation.Apply(Up);

    private static readonly LocatorParameter Spacing = new("spacing", 0.030, 100e-6);

    private static readonly LocatorParameter Diameter = new("diameter", 0.010, 50e-6);

    private static readonly LocatorParameter Included = new("included", Math.PI / 2, 2e-3);

    /// <summary>The smallest master nearly drops between the pins: there the spacing counts most.</summary>
    private static readonly double[] ThreeMasters = [0.022, 0.040, 0.090];

    private static Nest? Pins(IReadOnlyList<double> p) => Nest.Pins(p[0], p[1]);

    private static Nest? Vee(IReadOnlyList<double> p) => Nest.Vee(p[0]);

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void TwoPins_AreFoundWithoutScatter(bool held)
    {
        var fit = Fitted(Touched(Nest.Pins(0.03008, 0.00997), ThreeMasters), [Spacing, Diameter], Pins, held);
        Close.To(0.03008, fit.Parameters[0].Value, 1e-9);
        Close.To(0.00997, fit.Parameters[1].Value, 1e-9);
        Close.To(Motion.PositionMetres, fit.Frame.OriginMetres, 1e-8);
        Close.To(0, fit.Frame.RmsMetres, 1e-9);
        Assert.Equal(held, fit.Frame.NormalHeld);
        Assert.Equal(("spacing", 0.030), (fit.Parameters[0].Name, fit.Parameters[0].Drawing));
    }

    [Fact]
    public void AVee_IsFoundFromTwoMasters()
    {
        var fit = Fitted(Touched(Nest.Vee(Math.PI / 2 + 1e-3), 0.030, 0.090), [Included], Vee, false);
        Close.To(Math.PI / 2 + 1e-3, fit.Parameters[0].Value, 1e-8);
        Close.To(Motion.PositionMetres, fit.Frame.OriginMetres, 1e-8); // the apex belongs to the frame
    }

    /// <summary>
    /// Closed form: two masters in a vee, both touched in n nests, determine the angle by dv = −(ΔR/2)·(cos α/sin²α)·dA, over √n nests; the prior adds to it.
    /// </summary>
    [Fact]
    public void TheAnglesUncertainty_IsThatOfItsGeometry()
    {
        const double Sigma = 20e-6;
        var fit = Fitted(Touched(Nest.Vee(Math.PI / 2), 0.030, 0.090), [Included], Vee, false, Sigma);
        var slope = 0.030 / 2 * Math.Cos(Math.PI / 4) / Math.Pow(Math.Sin(Math.PI / 4), 2); // ΔR = 30 mm
        var touched = Sigma * Math.Sqrt(2.0 / 6) / slope;
        var both = 1 / Math.Sqrt(1 / (touched * touched) + 1 / (2e-3 * 2e-3));
        Close.To(both, fit.Parameters[0].Standard, 1e-6 * both);
        Close.To(both / 2e-3, fit.Parameters[0].PosteriorToPrior, 1e-6);
        Assert.Equal(Sigma, fit.TouchingStandardMetres);
        Assert.False(fit.TouchingEstimated);
    }

    [Fact]
    public void TwoMasters_CantSeparateThePinsSizeFromTheirSpacing()
    {
        var outcome = Fit(Touched(Nest.Pins(0.03008, 0.00997), 0.030, 0.090), [Spacing, Diameter], Pins, false, 20e-6);
        Assert.Equal(LocatorFitFault.Indistinct, outcome.Fault);
        Assert.Null(outcome.Fit);
        Assert.Equal(["spacing", "diameter"], outcome.Indistinct);
        Assert.Equal(LocatorFitFault.Indistinct, Fit(Touched(Nest.Pins(0.03008, 0.00997), 0.030, 0.090), [Spacing, Diameter], Pins, false, null).Fault);
    }

    /// <summary>A third master is not enough when all sit high above the pins: its information about the second direction is lost in the scatter.</summary>
    [Theory]
    [InlineData(20e-6, LocatorFitFault.Indistinct)]
    [InlineData(1e-6, LocatorFitFault.None)]
    public void ThreeLargeMasters_SeparateSizeAndSpacingOnlyWhenTouchedWell(double sigma, LocatorFitFault expected) => Assert.Equal(
        expected, Fit(Touched(Nest.Pins(0.030, 0.010), 0.030, 0.050, 0.090), [Spacing, Diameter], Pins, false, sigma).Fault);

    [Fact]
    public void TwoMasters_DetermineThePinsSpacingAlone() =>
        Close.To(0.03008, Fitted(Touched(Nest.Pins(0.03008, 0.010), 0.030, 0.090), [Spacing], p => Nest.Pins(p[0], 0.010), false).Parameters[0].Value, 1e-9);

    [Fact]
    public void OneMaster_CantSeparateTheVeesAngleFromTheFrame()
    {
        var outcome = Fit(Touched(Nest.Vee(Math.PI / 2), 0.050), [Included], Vee, false, 20e-6);
        Assert.Equal(LocatorFitFault.Indistinct, outcome.Fault);
        Assert.Equal(["included"], outcome.Indistinct);
    }

    /// <summary>A second parameter that is well determined is not named together with the one that is not.</summary>
    [Fact]
    public void OnlyAnIndistinctParameter_IsNamed()
    {
        var lift = new LocatorParameter("lift", 0, 1e-3); // moves the vee along its seat axis, as the frame does
        var outcome = Fit(
            Touched(Nest.Vee(Math.PI / 2), 0.030, 0.090), [Included, lift],
            p => new(Locator.Face(new(0, p[1]), p[0] / 2), Locator.Face(new(0, p[1]), Math.PI - p[0] / 2)), false, 20e-6);
        Assert.Equal(LocatorFitFault.Indistinct, outcome.Fault);
        Assert.Equal(["lift"], outcome.Indistinct);
    }

    [Fact]
    public void AMasterThatDropsBetweenThePins_IsNamed()
    {
        var touches = Touched(Nest.Pins(0.030, 0.010), ThreeMasters);
        touches[4] = touches[4] with { DiameterMetres = 0.019 };
        var outcome = Fit(touches, [Spacing, Diameter], Pins, false, 20e-6);
        Assert.Equal((LocatorFitFault.NoSeat, (int?)4), (outcome.Fault, outcome.Touch));
    }

    /// <summary>Values that change faster than the differences can follow.</summary>
    [Fact]
    public void AFitThatNeverConverges_IsRefused() => Assert.Equal(LocatorFitFault.NotConverged, Fit(
        Touched(Nest.Pins(0.03008, 0.010), ThreeMasters), [Spacing], p => Nest.Pins(p[0] + 2e-5 * Math.Sin(1e7 * p[0]), 0.010), false, 1e-6).Fault);

    [Fact]
    public void AFaultOfTheFrame_IsPassedOn()
    {
        var mirrored = Touched(Nest.Pins(0.030, 0.010), ThreeMasters);
        var outcome = LocatorFitter.Fit(mirrored, [Spacing, Diameter], Pins, -1 * Normal, false, 20e-6);
        Assert.Equal((LocatorFitFault.Frame, FrameFitFault.AgainstNormal), (outcome.Fault, outcome.FrameFault));
        var oneNest = Touched(Nest.Vee(Math.PI / 2), 0.030, 0.050, 0.090).Where(t => t.CellMetres == default).ToArray();
        outcome = LocatorFitter.Fit(oneNest, [Included], Vee, Normal, false, 20e-6);
        Assert.Equal((LocatorFitFault.Frame, FrameFitFault.Collinear), (outcome.Fault, outcome.FrameFault));
    }

    [Fact]
    public void TooFewTouchesToEstimateTheirScatter_AreRefused()
    {
        var three = Touched(Nest.Vee(Math.PI / 2), 0.030).Take(2).Concat(Touched(Nest.Vee(Math.PI / 2), 0.090).Skip(4).Take(1)).ToArray();
        LocatorParameter[] many = [Included, new("a", 0, 1e-4), new("b", 0, 1e-4)];
        var outcome = LocatorFitter.Fit(three, many, Vee, Normal, false, null);
        Assert.Equal((LocatorFitFault.Frame, FrameFitFault.TooFew), (outcome.Fault, outcome.FrameFault));
    }

    /// <summary>1,200 draws, of the pins by their priors and of the touches by σ: a deviation is then known to 2 %, and is as stated within 5 %.</summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void ThePins_ScatterAsTheirUncertaintiesState(bool stated)
    {
        const double Sigma = 20e-6;
        var random = new Random(20261125);
        var (spacing, diameter, along, sigma) = (new Both(), new Both(), new Both(), new Both());
        for (var i = 0; i < 1200; i++)
        {
            var off = Any.Scatter(random, 1);
            var (a, b) = (0.030 + 100e-6 * off.X, 0.010 + 50e-6 * off.Y);
            var touches = Touched(Nest.Pins(a, b), ThreeMasters).Select(t => t with { BaseMetres = t.BaseMetres + Any.Scatter(random, Sigma) }).ToArray();
            var fit = Fitted(touches, [Spacing, Diameter], Pins, false, stated ? Sigma : null);
            spacing.Add(fit.Parameters[0].Value - a, fit.Parameters[0].Standard);
            diameter.Add(fit.Parameters[1].Value - b, fit.Parameters[1].Standard);
            along.Add(Motion.Orientation.ApplyInverse(fit.Frame.OriginMetres - Motion.PositionMetres).Y, fit.Frame.Covariance!.OriginMetres.Y);
            sigma.Add(Sigma, fit.TouchingStandardMetres);
            Assert.Equal(!stated, fit.TouchingEstimated);
        }

        Close.To(1, spacing.Ratio, 0.05);
        Close.To(1, diameter.Ratio, 0.05);
        Close.To(1, along.Ratio, 0.05);
        Close.To(1, sigma.Ratio, 0.007); // known to 0.3 %; 1 % would be one degree of freedom
    }

    [Fact]
    public void AMisTouchedMaster_IsNamed()
    {
        var random = new Random(5);
        var touches = Touched(Nest.Pins(0.030, 0.010), ThreeMasters).Select(t => t with { BaseMetres = t.BaseMetres + Any.Scatter(random, 20e-6) }).ToArray();
        Assert.Null(Fitted(touches, [Spacing, Diameter], Pins, false).Frame.Outlier);
        touches[13] = touches[13] with { BaseMetres = touches[13].BaseMetres + new Vector3(0, 3e-4, 0) };
        Assert.Equal(13, Fitted(touches, [Spacing, Diameter], Pins, false).Frame.Outlier?.Index);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(double.NaN)]
    public void APriorThatIsNotPositive_Throws(double prior) => Assert.Throws<ArgumentOutOfRangeException>(
        () => Fit(Touched(Nest.Vee(Math.PI / 2), 0.030, 0.090), [Included with { PriorStandard = prior }], Vee, false, null));

    private static LocatorFit Fitted(
        MasterTouch[] touches, LocatorParameter[] parameters, Func<IReadOnlyList<double>, Nest?> nestOf, bool held, double? sigma = null)
    {
        var outcome = Fit(touches, parameters, nestOf, held, sigma);
        Assert.Equal(LocatorFitFault.None, outcome.Fault);
        return outcome.Fit!;
    }

    private static LocatorFitOutcome Fit(
        MasterTouch[] touches, LocatorParameter[] parameters, Func<IReadOnlyList<double>, Nest?> nestOf, bool held, double? sigma) =>
        LocatorFitter.Fit(touches, parameters, nestOf, Normal, held, sigma);

    /// <summary>Each master in each of the six nests, at its true position.</summary>
    private static MasterTouch[] Touched(Nest nest, params double[] diameters) =>
    [
        .. from diameter in diameters
           from cell in Layouts.SixNests
           let seat = SeatOf.Stock(nest, diameter / 2).Centre
           select new MasterTouch(
               cell, diameter, Motion.PositionMetres + Motion.Orientation.Apply(cell + new Vector3(seat.U, seat.V, 0))),
    ];

    /// <summary>Found deviations and stated ones, both as root mean squares.</summary>
    private sealed class Both
    {
        private double found;
        private double stated;

        internal double Ratio => Math.Sqrt(found / stated);

        internal void Add(double error, double standard)
        {
            found += error * error;
            stated += standard * standard;
        }
    }
}
