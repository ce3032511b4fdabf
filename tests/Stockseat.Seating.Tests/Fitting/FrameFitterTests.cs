using CsCheck;
using Stockseat.Seating.Fitting;
using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Tests.Fitting;

/// <summary>The frame of six nests, two rows of three, 150 mm by 200 mm apart.</summary>
public class FrameFitterTests
{
    private static readonly Vector3 Up = new(0, 0, 1);

    [Fact]
    public void ARackAtThirtyDegrees_HasTheAxesOfItsGeometry()
    {
        // Turned by 30° about z: u = (cos 30°, sin 30°, 0), v = (−sin 30°, cos 30°, 0).
        var (half, root) = (0.5, Math.Sqrt(3) / 2);
        var points = Layouts.SixNests.Select(p => new TouchedPoint(p, new(1 + root * p.X - half * p.Y, 2 + half * p.X + root * p.Y, 0.1))).ToArray();
        foreach (var held in new[] { false, true })
        {
            var fit = Fitted(points, Up, held);
            Close.To(new Vector3(root, half, 0), fit.Frame.U, 1e-15);
            Close.To(new Vector3(-half, root, 0), fit.Frame.V, 1e-15);
            Close.To(Up, fit.Frame.W, 1e-15);
            Close.To(new Vector3(1, 2, 0.1), fit.OriginMetres, 1e-15);
            Close.To(0, fit.RmsMetres, 1e-15);
            Assert.Null(fit.Outlier);
            Assert.Equal(held, fit.NormalHeld);
        }
    }

    [Fact]
    public void AnyRigidMotion_IsFoundExactly() => Any.Motion.Sample(motion =>
    {
        var normal = motion.Orientation.Apply(Up);
        foreach (var held in new[] { false, true })
        {
            var fit = Fitted(Layouts.Moved(Layouts.SixNests, motion), normal, held);
            Close.To(motion.PositionMetres, fit.OriginMetres, 1e-12);
            Close.To(motion.Orientation.Apply(new(1, 0, 0)), fit.Frame.U, 1e-12);
            Close.To(motion.Orientation.Apply(new(0, 1, 0)), fit.Frame.V, 1e-12);
            Close.To(1, fit.ScaleAlongU!.Value, 1e-12);
            Close.To(0, fit.SquarenessRadians!.Value, 1e-12);
            Close.To(0, fit.NormalTiltRadians, 1e-7); // an angle between nearly equal vectors
        }
    }, iter: 200);

    [Fact]
    public void MovedTouches_KeepTheResidualsAndAllThatFollowsFromThem() => Gen.Select(Any.Motion, Any.Noise).Sample((motion, noise) =>
    {
        foreach (var held in new[] { false, true })
        {
            var touched = Layouts.SixNests.Select((p, i) => new TouchedPoint(p, p + noise[i])).ToArray();
            var here = Fitted(touched, Up, held);
            var there = Fitted(
                [.. touched.Select(t => new TouchedPoint(t.PlanMetres, motion.PositionMetres + motion.Orientation.Apply(t.BaseMetres)))],
                motion.Orientation.Apply(Up), held);
            Assert.All(here.ResidualsPlan.Zip(there.ResidualsPlan), r => Close.To(r.First, r.Second, 1e-13));
            Close.To(here.SigmaMetres!.Value, there.SigmaMetres!.Value, 1e-13);
            Close.To(here.Covariance!.AboutWRadians, there.Covariance!.AboutWRadians, 1e-13);
            Close.To(here.ScaleAlongV!.Value, there.ScaleAlongV!.Value, 1e-12);
        }
    }, iter: 200);

    [Fact]
    public void TheOrderOfTheTouches_DoesNotMatter() => Gen.Select(Any.Noise, Gen.Int[1, 5]).Sample((noise, by) =>
    {
        foreach (var held in new[] { false, true })
        {
            var touched = Layouts.SixNests.Select((p, i) => new TouchedPoint(p, p + noise[i])).ToArray();
            TouchedPoint[] turned = [.. touched[by..], .. touched[..by]];
            var (one, other) = (Fitted(touched, Up, held), Fitted(turned, Up, held));
            Close.To(one.Frame.U, other.Frame.U, 1e-13);
            Close.To(one.OriginMetres, other.OriginMetres, 1e-13);
            Close.To(one.ResidualsPlan[by], other.ResidualsPlan[0], 1e-13);
            Assert.Equal(touched[one.Worst], turned[other.Worst]);
        }
    }, iter: 200);

    [Fact]
    public void MirroredNests_ContradictTheNormal()
    {
        var mirrored = Layouts.SixNests.Select(p => new TouchedPoint(p, new(1 - p.X, p.Y, 0))).ToArray();
        foreach (var held in new[] { false, true })
        {
            Assert.Equal(FrameFitFault.AgainstNormal, FrameFitter.TryFit(mirrored, Up, held, out var fit));
            Assert.Null(fit);
        }

        // Turned over, the layout fits to the last bits: only the normal reveals the mistake.
        Close.To(0, Fitted(mirrored, new(0, 0, -1), false).RmsMetres, 1e-15);
    }

    /// <summary>In a long layout the mirrored fit is hardly better than the proper one, but it is still the better one.</summary>
    [Fact]
    public void LongMirroredLayouts_ContradictAHeldNormal()
    {
        var mirrored = Layouts.SixNests.Select(p => new TouchedPoint(new(8 * p.X, p.Y, 0), new(8 * p.X, -p.Y, 0)));
        Assert.Equal(FrameFitFault.AgainstNormal, FrameFitter.TryFit([.. mirrored], Up, true, out _));
    }

    [Theory]
    [InlineData(89, FrameFitFault.None)]
    [InlineData(91, FrameFitFault.AgainstNormal)]
    public void ANormalMoreThanARightAngleOff_IsRefused(double degrees, FrameFitFault expected)
    {
        var (sin, cos) = Math.SinCos(degrees * Math.PI / 180);
        Assert.Equal(expected, FrameFitter.TryFit(Layouts.Moved(Layouts.SixNests, new(default, Rotation.Identity)), new(0, sin, cos), false, out var fit));
        if (fit is not null)
        {
            Close.To(degrees * Math.PI / 180, fit.NormalTiltRadians, 1e-12);
        }
    }

    [Fact]
    public void ASmallTilt_IsReported()
    {
        var tilted = Rotation.FromAxisAngle(new(1, 0, 0), 0.002);
        var fit = Fitted(Layouts.Moved(Layouts.SixNests, new(default, tilted)), Up, false);
        Close.To(0.002, fit.NormalTiltRadians, 1e-12);
        var held = Fitted(Layouts.Moved(Layouts.SixNests, new(default, tilted)), Up, true);
        Close.To(Up, held.Frame.W, 0);
        Close.To(0.2 / 2 * Math.Sin(0.002), held.ResidualsPlan[5].Z, 1e-12); // half a pitch from the middle, along v
    }

    [Fact]
    public void ASingleRow_NeedsTheNormalHeld()
    {
        var row = Layouts.Moved(Layouts.Row, new(new(1, 2, 3), Rotation.FromAxisAngle(Up, 0.5)));
        Assert.Equal(FrameFitFault.Collinear, FrameFitter.TryFit(row, Up, false, out _));
        var fit = Fitted(row, Up, true);
        Close.To(new Vector3(Math.Cos(0.5), Math.Sin(0.5), 0), fit.Frame.U, 1e-15);
        Close.To(1, fit.ScaleAlongU!.Value, 1e-14);
        Assert.Null(fit.ScaleAlongV);
        Assert.Null(fit.SquarenessRadians);
        Assert.Null(fit.FlatnessMetres);
    }

    [Fact]
    public void TwoPoints_NeedTheNormalHeld()
    {
        var fit = Fitted([new(default, new(1, 1, 0)), new(new(0.4, 0, 0), new(1, 1.4002, 0.001))], new(0, 0, 7), false);
        Assert.True(fit.NormalHeld);
        Close.To(new Vector3(0, 1, 0), fit.Frame.U, 1e-15);
        Close.To(1.0005, fit.ScaleAlongU!.Value, 1e-12);
        Assert.Equal(1, fit.DegreesOfFreedom); // four coordinates in the plan, minus turn and position
        Close.To(Math.Sqrt(2) * 1e-4, fit.SigmaMetres!.Value, 1e-12); // 0.1 mm at each end
        Close.To(new Vector3(-1e-4, 0, -5e-4), fit.ResidualsPlan[0], 1e-12);
        Assert.Null(fit.Covariance!.AboutURadians);
        Assert.Null(fit.Outlier);
    }

    [Fact]
    public void PointsThatDetermineNoFrame_AreRefused()
    {
        var here = new TouchedPoint(default, new(1, 1, 1));
        Assert.Equal(FrameFitFault.TooFew, FrameFitter.TryFit([], Up, true, out _));
        Assert.Equal(FrameFitFault.TooFew, FrameFitter.TryFit([here], Up, true, out _));
        Assert.Equal(FrameFitFault.Coincident, FrameFitter.TryFit([here, here], Up, true, out _));
        Assert.Equal(FrameFitFault.Coincident, FrameFitter.TryFit([here, here, here], Up, false, out _));
        Assert.Equal(FrameFitFault.Coincident, FrameFitter.TryFit([here, new(new(0, 0, 1), new(1, 1, 2))], Up, true, out _)); // one above the other
    }

    [Theory]
    [InlineData(0)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void ANormalWithoutALength_Throws(double length) => Assert.Throws<ArgumentOutOfRangeException>(
        () => FrameFitter.TryFit(Layouts.Moved(Layouts.SixNests, new(default, Rotation.Identity)), new(0, 0, length), true, out _));

    [Fact]
    public void ALongPitchAndASkewedGrid_AreReported()
    {
        // 0.1 % too long along u, 0.05 % too short along v, v leaning by 0.3 mrad towards u.
        var points = Layouts.SixNests.Select(p => new TouchedPoint(p, new(1.001 * p.X + 0.9995 * Math.Sin(0.0003) * p.Y, 0.9995 * Math.Cos(0.0003) * p.Y, 0)))
            .ToArray();
        var fit = Fitted(points, Up, false);
        Close.To(1.001, fit.ScaleAlongU!.Value, 1e-9);
        Close.To(0.9995, fit.ScaleAlongV!.Value, 1e-9);
        Close.To(-0.0003, fit.SquarenessRadians!.Value, 1e-9);
    }

    [Fact]
    public void OneNestTooHigh_ShowsAsFlatness()
    {
        // Four corners, one 0.4 mm too high: the best plane leaves ±0.1 mm, so 0.2 mm; to first order in the lift.
        Vector3[] corners = [default, new(0.4, 0, 0), new(0, 0.4, 0), new(0.4, 0.4, 0)];
        var fit = Fitted([.. corners.Select((p, i) => new TouchedPoint(p, p + (i == 3 ? new Vector3(0, 0, 4e-4) : default)))], Up, false);
        Close.To(2e-4, fit.FlatnessMetres!.Value, 1e-8);
        Assert.Equal(6, fit.DegreesOfFreedom);
    }

    [Fact]
    public void AFittedPoint_TransformsToBaseAndBack()
    {
        var motion = new Pose(new(0.5, -0.2, 0.9), Rotation.FromAxisAngle(new(1, 2, 3), 1));
        var fit = Fitted(Layouts.Moved(Layouts.SixNests, motion), motion.Orientation.Apply(Up), false);
        Vector3 plan = new(0.31, -0.12, 0.05);
        Close.To(motion.PositionMetres + motion.Orientation.Apply(plan), fit.ToBase(plan), 1e-12);
        Close.To(plan, fit.ToPlan(fit.ToBase(plan)), 1e-12);
    }

    internal static FrameFit Fitted(IReadOnlyList<TouchedPoint> points, Vector3 normal, bool holdNormal)
    {
        Assert.Equal(FrameFitFault.None, FrameFitter.TryFit(points, normal, holdNormal, out var fit));
        return fit!;
    }
}
