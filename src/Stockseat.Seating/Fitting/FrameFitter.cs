using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Fitting;

/// <summary>
/// Fits the frame of the plan in base to touched points. With a free normal it is the rigid fit of all three coordinates. With a held normal w the points are
/// projected along w: with x the plan points and m the found points, each about its centroid, the turn in the plan is φ = atan2(Σ x × m, Σ x · m), and the
/// height is the mean.
/// </summary>
public static class FrameFitter
{
    /// <summary>Fits the frame.</summary>
    /// <param name="points">The touched points, two or more.</param>
    /// <param name="normal">The stated normal out of the plan in base, of any positive length.</param>
    /// <param name="holdNormal">Whether the normal is taken as stated; with two points it always is.</param>
    /// <param name="fit">The fit; null when there is a fault.</param>
    /// <returns>
    /// <see cref="FrameFitFault.None"/> or why there is no fit. <see cref="RigidFit.TryFit"/> says when points count as in one place or in one line. With a
    /// held normal a line is enough, and nests that are clearly mirrored in the plan are <see cref="FrameFitFault.AgainstNormal"/> too.
    /// </returns>
    /// <exception cref="ArgumentOutOfRangeException">The normal has no positive, finite length.</exception>
    public static FrameFitFault TryFit(IReadOnlyList<TouchedPoint> points, Vector3 normal, bool holdNormal, out FrameFit? fit)
    {
        if (!(normal.Length > 0) || !double.IsFinite(normal.Length))
        {
            throw new ArgumentOutOfRangeException(nameof(normal), normal, "a normal of positive, finite length");
        }

        var (plan, found) = (points.Select(p => p.PlanMetres).ToArray(), points.Select(p => p.BaseMetres).ToArray());
        var (up, held) = (1 / normal.Length * normal, holdNormal || points.Count == 2);
        var fault = TryFrame(plan, found, up, held, out var frame);
        fit = fault == FrameFitFault.None ? FrameReport.Of(plan, found, frame, up, held) : null;
        return fault;
    }

    /// <summary>The fitted axes only; the normal is a unit vector.</summary>
    internal static FrameFitFault TryFrame(Vector3[] plan, Vector3[] found, Vector3 up, bool held, out PlanFrame frame)
    {
        frame = default;
        return plan.Length < 2 ? FrameFitFault.TooFew : held ? TryHeld(plan, found, up, out frame) : TryFree(plan, found, up, out frame);
    }

    private static FrameFitFault TryFree(Vector3[] plan, Vector3[] found, Vector3 up, out PlanFrame frame)
    {
        frame = default;
        var fault = RigidFit.TryFit(plan, found, null, out var motion);
        if (fault != FrameFitFault.None)
        {
            return fault;
        }

        var axes = motion!.Axes;
        frame = Frame(axes.Y, axes.Z);
        return Vector3.Dot(frame.W, up) < 0 ? FrameFitFault.AgainstNormal : FrameFitFault.None;
    }

    private static FrameFitFault TryHeld(Vector3[] plan, Vector3[] found, Vector3 up, out PlanFrame frame)
    {
        frame = default;
        var (first, second) = Across(up);
        var drawn = plan.Select(p => new Vector3(p.X, p.Y, 0)).ToArray();
        var seen = found.Select(p => new Vector3(Vector3.Dot(first, p), Vector3.Dot(second, p), 0)).ToArray();
        var (drawnSpread, seenSpread) = (Spread.Of(drawn, null), Spread.Of(seen, null));
        if (drawnSpread.IsOnePlace || !(seenSpread.Longest > Spread.OneLine * drawnSpread.Longest))
        {
            return FrameFitFault.Coincident;
        }

        var s = Spread.Scatter(seen, drawn, null);
        var (cos, sin) = (s[0] + s[4], s[1] - s[3]);
        var mirrored = double.Hypot(s[0] - s[4], s[1] + s[3]);
        var length = double.Hypot(cos, sin);
        if (!drawnSpread.IsOneLine && !seenSpread.IsOneLine && mirrored > length)
        {
            return FrameFitFault.AgainstNormal;
        }

        frame = Frame(1 / length * (cos * second - sin * first), up);
        return FrameFitFault.None;
    }

    /// <summary>Two unit vectors square to the normal and to each other; first × second is the normal.</summary>
    private static (Vector3 First, Vector3 Second) Across(Vector3 up)
    {
        var least = Math.Abs(up.X) <= Math.Abs(up.Y) && Math.Abs(up.X) <= Math.Abs(up.Z) ? new Vector3(1, 0, 0)
            : Math.Abs(up.Y) <= Math.Abs(up.Z) ? new Vector3(0, 1, 0) : new Vector3(0, 0, 1);
        var second = Vector3.Cross(up, least);
        second = 1 / second.Length * second;
        return (Vector3.Cross(second, up), second);
    }

    private static PlanFrame Frame(Vector3 seatAxis, Vector3 normal) => PlanFrame.TryCreate(seatAxis, normal, out var frame)
        ? frame
        : throw new InvalidOperationException($"the fitted axes {seatAxis} and {normal} are not square");
}
