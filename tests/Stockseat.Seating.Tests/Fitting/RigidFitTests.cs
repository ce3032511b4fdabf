using CsCheck;
using Stockseat.Seating.Fitting;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Tests.Published;

namespace Stockseat.Seating.Tests.Fitting;

public class RigidFitTests
{
    [Theory]
    [MemberData(nameof(RigidFits.Ids), MemberType = typeof(RigidFits))]
    public void TheMotion_IsThePublishedMotion(string id)
    {
        var row = RigidFits.Of(id);
        var motion = Fit(row);
        var (x, y, z) = motion.Axes;
        for (var i = 0; i < 3; i++)
        {
            Close.To(Of(row.Matrix[i]), i == 0 ? new(x.X, y.X, z.X) : i == 1 ? new(x.Y, y.Y, z.Y) : new(x.Z, y.Z, z.Z), 1e-12);
            var axis = new Vector3(i == 0 ? 1 : 0, i == 1 ? 1 : 0, i == 2 ? 1 : 0);
            Close.To(new(row.Matrix[0][i], row.Matrix[1][i], row.Matrix[2][i]), motion.Turn.Apply(axis), 1e-12);
        }

        Close.To(RigidFits.Metres(row.Translation), motion.TranslationMetres, 1e-12);
    }

    [Theory]
    [MemberData(nameof(RigidFits.Ids), MemberType = typeof(RigidFits))]
    public void TheResiduals_AreThePublishedResiduals(string id)
    {
        var row = RigidFits.Of(id);
        var motion = Fit(row);
        for (var i = 0; i < row.Residuals.Length; i++)
        {
            Close.To(RigidFits.Metres(row.Residuals[i]), motion.Residuals[i], 1e-12);
        }

        Close.To(row.SumOfSquares * 1e-6, motion.SumOfSquares, 1e-9 * row.SumOfSquares * 1e-6 + 1e-22);
        Close.To(row.Rms / 1000, motion.RmsMetres, 1e-9 * row.Rms + 1e-13);
        Close.To(row.Worst / 1000, motion.Residuals.Max(r => r.Length), 1e-9 * row.Worst + 1e-13);
    }

    [Theory]
    [MemberData(nameof(RigidFits.Ids), MemberType = typeof(RigidFits))]
    public void TheCovariance_IsThePublishedCovariance(string id)
    {
        var row = RigidFits.Of(id);
        var motion = Fit(row);
        var size = row.Covariance.Max(r => r.Max(Math.Abs));
        for (var i = 0; i < 3; i++)
        {
            Close.To(Of(row.Covariance[i]), 1e-6 * motion.TurnCovariancePerUnit[i], 1e-9 * size);
        }
    }

    [Theory]
    [MemberData(nameof(RigidFits.RefusedIds), MemberType = typeof(RigidFits))]
    public void PointsThatDetermineNoTurn_AreRefused(string id)
    {
        var row = RigidFits.Refused(id);
        if (row.Fault is null)
        {
            Assert.Throws<ArgumentException>(() => RigidFit.TryFit(RigidFits.Metres(row.Model), RigidFits.Metres(row.Measured), null, out _));
            return;
        }

        Assert.Equal(row.Fault, RigidFit.TryFit(RigidFits.Metres(row.Model), RigidFits.Metres(row.Measured), null, out var motion).ToString());
        Assert.Null(motion);
    }

    [Theory]
    [InlineData(0.9e-3, FrameFitFault.Collinear)]
    [InlineData(1.1e-3, FrameFitFault.None)]
    public void APointOffTheLine_CountsFromAThousandthOfItsLengthOn(double ratio, FrameFitFault expected)
    {
        // Spread along: √(0.5² + 0.5²); across: three points h/3, h/3, −2h/3 off, √(6/9)·h.
        var off = ratio * Math.Sqrt(0.5) / Math.Sqrt(6.0 / 9);
        Vector3[] bent = [new(-0.5, 0, 0), new(0, off, 0), new(0.5, 0, 0)];
        Vector3[] square = [new(-0.5, 0, 0), new(0, 0.5, 0), new(0.5, 0, 0)];
        Assert.Equal(expected, RigidFit.TryFit(bent, square, null, out _));
        Assert.Equal(expected, RigidFit.TryFit(square, bent, null, out _));
    }

    [Fact]
    public void MeasuredPointsInOnePlace_AreRefused()
    {
        Vector3[] model = [new(0, 0, 0), new(0.3, 0, 0), new(0, 0.2, 0)];
        Vector3[] measured = [new(1, 1, 1), new(1, 1.0001, 1), new(1.0001, 1, 1)];
        Assert.Equal(FrameFitFault.Coincident, RigidFit.TryFit(model, measured, null, out _));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    public void AWeightThatIsNotPositive_Throws(double weight)
    {
        Vector3[] points = [new(0, 0, 0), new(1, 0, 0), new(0, 1, 0)];
        Assert.Throws<ArgumentException>(() => RigidFit.TryFit(points, points, [1, 1, weight], out _));
    }

    /// <summary>In the plane, mirrored: in space, turning the points over would fit perfectly, so the plane's normal is held.</summary>
    [Fact]
    public void ThePrintedMirroredExample_IsARotationInThePlane()
    {
        var (x, y, cos, sin, translation, meanSquare) = RigidFits.Umeyama;
        Vector3[] deep = [new(0, 0, 1), new(0, 0, -1)]; // two stiff points along the normal at the centroids: they hold it and weigh nothing in the plane
        var (from, to) = (new Vector3(1.0 / 3, 2.0 / 3, 0), new Vector3(-1.0 / 3, 2.0 / 3, 0));
        Assert.Equal(FrameFitFault.None, RigidFit.TryFit(
            [.. x, .. deep.Select(d => from + 100 * d)], [.. y, .. deep.Select(d => to + 100 * d)], null, out var motion));
        Close.To(new Vector3(cos, -sin, 0), motion!.Axes.X, 5e-4); // R = [[cos, sin], [−sin, cos]]
        Close.To(new Vector3(sin, cos, 0), motion.Axes.Y, 5e-4);
        Close.To(translation, motion.TranslationMetres, 1e-12);
        Close.To(meanSquare, motion.SumOfSquares / 3, 1e-12);
        Assert.Equal(FrameFitFault.None, RigidFit.TryFit(x, y, null, out var over));
        Close.To(0, over!.SumOfSquares, 1e-28);
        Close.To(new Vector3(0, 0, -1), over.Axes.Z, 1e-15);
    }

    [Fact]
    public void ThePublishedImproperCase_IsStillARotation()
    {
        var (a, b) = RigidFits.Improper;
        Assert.Equal(FrameFitFault.None, RigidFit.TryFit([default, .. b], [default, .. a], null, out var motion));
        for (var i = 0; i < a.Length; i++)
        {
            Close.To(a[i], motion!.Turn.Apply(b[i]), 1e-6);
        }

        Close.To(motion!.Axes.Z, Vector3.Cross(motion.Axes.X, motion.Axes.Y), 1e-15);
    }

    [Fact]
    public void AnyRigidMotion_IsFoundExactly() => Gen.Select(Any.Motion, Any.Points).Sample((motion, points) =>
    {
        var measured = points.Select(p => motion.PositionMetres + motion.Orientation.Apply(p)).ToArray();
        Assert.Equal(FrameFitFault.None, RigidFit.TryFit(points, measured, null, out var found));
        Close.To(motion.PositionMetres, found!.TranslationMetres, 1e-11);
        foreach (var p in points)
        {
            Close.To(motion.Orientation.Apply(p), found.Turn.Apply(p), 1e-11);
        }
    }, iter: 300);

    [Fact]
    public void MovedMeasurements_KeepTheResidualsLengths() => Gen.Select(Any.Motion, Any.Points, Any.Noise).Sample((motion, points, noise) =>
    {
        var measured = points.Select((p, i) => p + noise[i]).ToArray();
        var moved = measured.Select(p => motion.PositionMetres + motion.Orientation.Apply(p)).ToArray();
        RigidFit.TryFit(points, measured, null, out var here);
        RigidFit.TryFit(points, moved, null, out var there);
        for (var i = 0; i < points.Length; i++)
        {
            Close.To(motion.Orientation.Apply(here!.Residuals[i]), there!.Residuals[i], 1e-12);
        }
    }, iter: 300);

    [Fact]
    public void TheSameInput_GivesTheSameBits()
    {
        var row = RigidFits.Of("RF-11");
        Assert.Equal(Fit(row).Axes, Fit(row).Axes);
        Assert.Equal(Fit(row).TranslationMetres, Fit(row).TranslationMetres);
    }

    private static RigidMotion Fit(RigidFits.Case row)
    {
        Assert.Equal(FrameFitFault.None, RigidFit.TryFit(RigidFits.Metres(row.Model), RigidFits.Metres(row.Measured), row.Weights, out var motion));
        return motion!;
    }

    private static Vector3 Of(double[] xyz) => new(xyz[0], xyz[1], xyz[2]);
}
