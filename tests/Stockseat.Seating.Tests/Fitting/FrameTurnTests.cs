using CsCheck;
using Stockseat.Seating.Fitting;
using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Tests.Fitting;

/// <summary>How far a fitted frame is turned from the stated one, and what a rising row says about a held normal.</summary>
public class FrameTurnTests
{
    private const double Degree = Math.PI / 180;

    /// <summary>A plan turned by 30° about z and then tilted by 20° about its own u: its seat axis and its normal.</summary>
    private static readonly PlanFrame Stated = Frame(
        new(-Math.Sin(30 * Degree) * Math.Cos(20 * Degree), Math.Cos(30 * Degree) * Math.Cos(20 * Degree), Math.Sin(20 * Degree)),
        new(Math.Sin(30 * Degree) * Math.Sin(20 * Degree), -Math.Cos(30 * Degree) * Math.Sin(20 * Degree), Math.Cos(20 * Degree)));

    /// <summary>
    /// Six nests of a plan that is turned by about 0.3° about u, −0.2° about v and 0.45° about w against the stated one, touched with scatter. The angles and
    /// the turn were computed independently with numpy: rotation by SVD, its axis as the eigenvector, its angle as the argument of the eigenvalue.
    /// </summary>
    [Fact]
    public void ATurnedPlan_ComparedWithTheStatedOne()
    {
        Vector3[] found =
        [
            new(0.7, -0.199991, 0.399992), new(0.829411, -0.124217, 0.40087), new(0.958877, -0.048366, 0.401785),
            new(0.604834, -0.038327, 0.469391), new(0.734293, 0.037427, 0.470279), new(0.863748, 0.113212, 0.471166),
        ];
        var turn = FrameTurn.Between(Stated, Fitted(Layouts.SixNests, found, held: false).Frame);

        Close.To(0.009467421968055414, turn.SeatAxisRadians, 1e-12);
        Close.To(0.006387367633147032, turn.NormalRadians, 1e-12);
        Close.To(new Vector3(0.005352621988942549, -0.0034854139575674777, 0.007809072115427255), turn.AboutPlanRadians, 1e-12);
    }

    [Fact]
    public void AnyTurn_IsGivenBackAsItsVector() => Any.Motion.Sample(motion =>
    {
        var turned = Frame(motion.Orientation.Apply(Stated.V), motion.Orientation.Apply(Stated.W));
        var turn = FrameTurn.Between(Stated, turned);
        var about = turn.AboutPlanRadians;
        var angle = about.Length;
        if (angle is 0 or > Math.PI - 1e-3)
        {
            return; // the axis of half a turn has no direction
        }

        var axis = 1 / angle * ((about.X * Stated.U) + (about.Y * Stated.V) + (about.Z * Stated.W));
        var again = Rotation.FromAxisAngle(axis, angle);
        Close.To(turned.V, again.Apply(Stated.V), 1e-9);
        Close.To(turned.W, again.Apply(Stated.W), 1e-9);
    }, iter: 200);

    /// <summary>
    /// Five nests in a row whose plan is turned by about 0.25° about v, touched with scatter. Slope, rise and probability were computed independently with
    /// numpy (polyfit; Student's t with 3 degrees of freedom in closed form), the normal from the direction of the row by SVD.
    /// </summary>
    [Fact]
    public void ARowThatSinksEvenly_ShowsTheTurnedNormal()
    {
        Vector3[] found =
        [
            new(0.699962, -0.200026, 0.399963), new(0.803828, -0.139871, 0.399513), new(0.907668, -0.079695, 0.398966), new(1.011487, -0.019537, 0.398526),
            new(1.115299, 0.040609, 0.398012),
        ];
        var trend = Fitted(Layouts.Row, found, held: true).Trend!;

        Close.To(new Vector3(1, 0, 0), trend.AlongPlan, 1e-12);
        Close.To(-0.00435225412252741, trend.SlopeRadians, 1e-9);
        Close.To(-0.002089095169457455, trend.RiseMetres, 1e-9);
        Close.To(9.598681986355828e-06, trend.Probability, 1e-9);
        Close.To(new Vector3(0.1747774308210162, -0.29401909071517385, 0.9396837893518368), trend.Normal, 2e-7); // SVD goes by the length as found
    }

    [Fact]
    public void ARowAlongV_TurnsTheNormalAboutU()
    {
        var row = Layouts.Row.Select(p => new Vector3(0, -p.X, 0)).ToArray(); // against v
        var tilted = Rotation.FromAxisAngle(new(1, 0, 0), 0.004);
        var fit = Fitted(row, [.. row.Select(tilted.Apply)], held: true, new Vector3(0, 0, 1));

        Close.To(new Vector3(0, 1, 0), fit.Trend!.AlongPlan, 1e-12);
        Close.To(0.004, fit.Trend.SlopeRadians, 1e-7);
        Close.To(tilted.Apply(new(0, 0, 1)), fit.Trend.Normal, 1e-7);
    }

    [Fact]
    public void WhatIsNoStraightRise_IsNoTrend()
    {
        Vector3[] Found(params double[] heights) => [.. Layouts.Row.Select((p, i) => new Vector3(p.X, 0, heights[i]))];
        RowTrend? Trend(params double[] heights) => Fitted(Layouts.Row, Found(heights), held: true, new Vector3(0, 0, 1)).Trend;

        Assert.NotNull(Trend(0, 0.0005, 0.001, 0.0015, 0.002));
        Assert.Null(Trend(0, 0.001, 0.0015, 0.001, 0)); // a sagging row
        Assert.Null(Trend(0, 0, 0, 0, 0.002)); // one nest alone
        Assert.Null(Trend(0.00003, -0.00002, 0.00001, -0.00003, 0.00002)); // scatter
        Assert.Null(Trend(0, 1e-6, 2e-6, 3e-6, 4e-6)); // nothing that matters
    }

    [Fact]
    public void TwoPlacesOrAFittedNormal_ShowNoTrend()
    {
        Vector3[] two = [new(0, 0, 0), new(0, 0.001, 0), new(0.4, 0, 0), new(0.4, 0.001, 0)];
        Assert.Null(Fitted(two, [.. two.Select(p => p with { Z = 0.01 * p.X })], held: true, new Vector3(0, 0, 1)).Trend);
        Assert.Null(Fitted(Layouts.SixNests, Layouts.SixNests, held: false, new Vector3(0, 0, 1)).Trend);
    }

    private static FrameFit Fitted(Vector3[] plan, Vector3[] found, bool held, Vector3? normal = null)
    {
        var points = plan.Zip(found, (p, f) => new TouchedPoint(p, f)).ToArray();
        Assert.Equal(FrameFitFault.None, FrameFitter.TryFit(points, normal ?? Stated.W, held, out var fit));
        return fit!;
    }

    private static PlanFrame Frame(Vector3 seatAxis, Vector3 normal)
    {
        Assert.True(PlanFrame.TryCreate(seatAxis, normal, out var frame));
        return frame;
    }
}
