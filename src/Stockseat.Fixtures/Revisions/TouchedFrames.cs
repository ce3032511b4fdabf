using Stockseat.Seating.Fitting;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Quantities;
using Stockseat.Seating.Seats;

namespace Stockseat.Fixtures.Revisions;

/// <summary>Fits a frame to touched nests and judges it.</summary>
public static class TouchedFrames
{
    /// <summary>
    /// The farthest that residuals within their limit may turn the plan: 2°, which moves a shift of 30 mm by some 1 mm. Our own choice, without a source.
    /// </summary>
    private const double FarthestTurnRadians = 2 * Math.PI / 180;

    /// <summary>
    /// Whether the normal is taken as stated: nests in one line say nothing about the turn about that line, and two nests are always in one line.
    /// </summary>
    public static bool HoldsNormal(Layout layout, IReadOnlyList<TouchedNest> nests) =>
        layout.Columns == 1 || layout.Rows == 1 || nests.Select(n => (n.Column, n.Row)).Distinct().Count() <= 2;

    /// <summary>Why a touched nest can't be used, looked at by itself; null when it can.</summary>
    /// <param name="reference">The values with which it is compared.</param>
    /// <param name="nests">All touched nests.</param>
    /// <param name="index">Which of them.</param>
    public static string? Unusable(in TouchReference reference, IReadOnlyList<TouchedNest> nests, int index)
    {
        var nest = nests[index];
        if (!reference.Layout.Has(nest.Column, nest.Row))
        {
            return $"nest {nest.Column},{nest.Row} is not in the layout, which has columns 0 to {reference.Layout.Columns - 1} and rows 0 to "
                + $"{reference.Layout.Rows - 1}; name the nest that was touched";
        }

        for (var i = 0; i < index; i++)
        {
            if ((nests[i].Column, nests[i].Row, nests[i].DiameterMetres) == (nest.Column, nest.Row, nest.DiameterMetres))
            {
                return $"nest {nest.Column},{nest.Row} appears twice with a master of {Length(nest.DiameterMetres)}; keep the one that counts";
            }
        }

        return Seat(reference.Nest, nest.DiameterMetres) is null
            ? $"a master of {Length(nest.DiameterMetres)} has no seat in this nest; correct its diameter or the drawing"
            : null;
    }

    /// <summary>Fits the frame.</summary>
    /// <param name="reference">The values with which the nests are compared.</param>
    /// <param name="nests">The touched nests, each usable by itself.</param>
    /// <param name="normal">The stated normal out of the plan, in base.</param>
    /// <param name="limits">How well they have to fit; judged by <see cref="Misfits"/>.</param>
    /// <param name="fault">Why there is no frame; null when there is one.</param>
    public static TouchedFrame? TryFit(in TouchReference reference, IReadOnlyList<TouchedNest> nests, Vector3 normal, TouchLimits limits, out string? fault)
    {
        var (nest, layout) = (reference.Nest, reference.Layout);
        fault = Said(Few(layout, nests));
        if (fault is not null)
        {
            return null;
        }

        var points = nests.Select(n => new TouchedPoint(Plan(layout, nest, n), n.PositionMetres)).ToArray();
        fault = Said(FrameFitter.TryFit(points, normal, HoldsNormal(layout, nests), out var fit));
        if (fit is null)
        {
            return null;
        }

        return Of(reference, nests, limits, fit);
    }

    /// <summary>Why a fitted frame is not good enough, one sentence each.</summary>
    public static IEnumerable<string> Misfits(TouchedFrame frame)
    {
        var fit = frame.Fit;
        if (Math.Atan2(frame.Limits.ResidualMetres, fit.SpreadMetres) is var turn && turn > FarthestTurnRadians)
        {
            yield return $"the touched nests spread by only {Length(fit.SpreadMetres)}, so a residual within the limit of "
                + $"{Length(frame.Limits.ResidualMetres)} may turn the plan by {Degrees(turn)} deg; at most {Degrees(FarthestTurnRadians)} deg are "
                + "allowed. Touch nests farther apart in the plan; where all nests lie along w, touch masters whose diameters differ more, or state the seat "
                + "axis instead";
        }

        if (fit.WorstMetres > frame.Limits.ResidualMetres)
        {
            var worst = frame.Nests[fit.Worst];
            var stands = fit.Trend is { } trend ? TrendText.Said(trend, LengthUnit.Millimetre)
                : fit.Outlier is { } outlier
                ? $"{(outlier.Index == fit.Worst ? "it" : Named(frame.Nests[outlier.Index]))} stands out from the others: touch it again, or look for a chip "
                + "under the master"
                : "none stands out from the others: look for a swapped column, a wrong pitch, a wrong nest, or touch more nests";
            yield return $"{Named(worst)} lies {Length(fit.WorstMetres)} from its fitted place; the limit is "
                + $"{Length(frame.Limits.ResidualMetres)}; {stands}";
        }

        if (frame.OriginMissMetres.Length > frame.Limits.OriginMetres)
        {
            var (u, v, w) = frame.OriginMissMetres;
            yield return $"by the touched nests, nest 0,0 lies {Length(frame.OriginMissMetres.Length)} from the taught origin ({Length(u)} "
                + $"along u, {Length(v)} along v, {Length(w)} out of the plan); the limit is {Length(frame.Limits.OriginMetres)}. The "
                + "nests are named in the reverse order, or the fixture was moved since the origin was taught: name the nests from the taught one, teach the "
                + "origin again, or calibrate with --origin touched";
        }
    }

    /// <summary>
    /// Masters of several diameters spread the seat centres of one nest, or of one line, a little: too little to find a turn that acts over all nests.
    /// </summary>
    private static FrameFitFault Few(Layout layout, IReadOnlyList<TouchedNest> nests)
    {
        var (first, other) = (nests[0], nests.FirstOrDefault(n => (n.Column, n.Row) != (nests[0].Column, nests[0].Row), nests[0]));
        var (u, v) = (other.Column - first.Column, other.Row - first.Row);
        return (u, v) == (0, 0) ? FrameFitFault.TooFew
            : !HoldsNormal(layout, nests) && nests.All(n => u * (n.Row - first.Row) == v * (n.Column - first.Column)) ? FrameFitFault.Collinear
            : FrameFitFault.None;
    }

    internal static TouchedFrame Of(in TouchReference reference, IReadOnlyList<TouchedNest> nests, TouchLimits limits, FrameFit fit)
    {
        var taught = Seat(reference.Nest, reference.TaughtDiameterMetres)
            ?? throw new ArgumentOutOfRangeException(nameof(reference), reference.TaughtDiameterMetres, "stock that has a seat");
        var origin = fit.ToBase(new(taught.U, taught.V, 0));
        var miss = origin - reference.TaughtPositionMetres;
        var frame = fit.Frame;
        return new(nests, limits, fit, origin, new(Vector3.Dot(frame.U, miss), Vector3.Dot(frame.V, miss), Vector3.Dot(frame.W, miss)));
    }

    /// <summary>The offset from the plan's origin at nest 0,0 to a nest, in u, v, w.</summary>
    internal static Vector3 Cell(Layout layout, in TouchedNest nest)
    {
        var offset = layout.OffsetPlan(nest.Column, nest.Row);
        return new(offset.U, offset.V, offset.W);
    }

    /// <summary>The words for a fit that failed.</summary>
    internal static string? Said(FrameFitFault fault) => fault switch
    {
        FrameFitFault.None => null,
        FrameFitFault.TooFew => "one touched nest gives no direction; touch at least two, or better three or more that are not in one line",
        FrameFitFault.Coincident => "seen along the normal, the touched nests lie in one place, so they give no direction; touch nests that lie apart in "
            + "the plan, or, where all nests lie along w, state the seat axis instead",
        FrameFitFault.Collinear => "the touched nests lie in one line, so the turn about that line is unknown; touch a nest beside it",
        FrameFitFault.AgainstNormal => "by the touched nests, the normal of the plan points against the stated one: the nests of one direction are named "
            + "in the reverse order, or the stated normal points the wrong way",
        _ => throw new ArgumentOutOfRangeException(nameof(fault), fault, "no such fault"),
    };

    private static string Degrees(double radians) => Rounded.Short(radians * 180 / Math.PI, 1);

    private static string Named(in TouchedNest nest) => $"nest {nest.Column},{nest.Row} (master of {Length(nest.DiameterMetres)})";

    private static Vector3 Plan(Layout layout, in Nest nest, in TouchedNest touched)
    {
        var centre = Seat(nest, touched.DiameterMetres)
            ?? throw new ArgumentOutOfRangeException(nameof(touched), touched.DiameterMetres, "a master that has a seat");
        return Cell(layout, touched) + new Vector3(centre.U, centre.V, 0);
    }

    private static PlanVector? Seat(in Nest nest, double diameterMetres) =>
        SeatSolver.TrySeat(nest, diameterMetres / 2, out var seat) == SeatFault.None ? seat.Centre : null;

    /// <summary>As revisions' files state lengths: a fault is found when the file is read, whoever will be shown it.</summary>
    private static string Length(double metres) => LengthUnit.Millimetre.Text(metres);
}
