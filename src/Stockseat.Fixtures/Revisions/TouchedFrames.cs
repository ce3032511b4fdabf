using Stockseat.Seating.Fitting;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Quantities;
using Stockseat.Seating.Seats;

namespace Stockseat.Fixtures.Revisions;

/// <summary>Fits a frame to touched nests and judges it.</summary>
public static class TouchedFrames
{
    /// <summary>The farthest that residuals within their limit may turn the plan: 2 deg, some 1 mm of a shift of 30 mm.</summary>
    private const double FarthestTurnRadians = 2 * Math.PI / 180;

    /// <summary>Whether the normal is taken as stated: the nests of one line say nothing of the turn about it, and two are always in one line.</summary>
    public static bool HoldsNormal(Layout layout, IReadOnlyList<TouchedNest> nests) =>
        layout.Columns == 1 || layout.Rows == 1 || nests.Select(n => (n.Column, n.Row)).Distinct().Count() <= 2;

    /// <summary>What makes a touched nest unusable by itself; null when nothing does.</summary>
    /// <param name="reference">What it is held against.</param>
    /// <param name="nests">All touched nests.</param>
    /// <param name="index">Which one.</param>
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
                return $"nest {nest.Column},{nest.Row} is there twice with a master of {Length(nest.DiameterMetres)}; keep the one that counts";
            }
        }

        return Seat(reference.Nest, nest.DiameterMetres) is null
            ? $"a master of {Length(nest.DiameterMetres)} has no seat in this nest; mend its diameter or the drawing"
            : null;
    }

    /// <summary>Fits the frame.</summary>
    /// <param name="reference">What the nests are held against.</param>
    /// <param name="nests">The touched nests, each usable by itself.</param>
    /// <param name="normal">The stated normal out of the plan, in base.</param>
    /// <param name="limits">How well they have to fit; judged by <see cref="Misfits"/>.</param>
    /// <param name="fault">Why no frame follows; null when one does.</param>
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

    /// <summary>What speaks against a frame that was fitted, a sentence each.</summary>
    public static IEnumerable<string> Misfits(TouchedFrame frame)
    {
        var fit = frame.Fit;
        if (Math.Atan2(frame.Limits.ResidualMetres, fit.SpreadMetres) is var turn && turn > FarthestTurnRadians)
        {
            yield return $"the touched nests spread by {Length(fit.SpreadMetres)} only, so that a residual within the limit of "
                + $"{Length(frame.Limits.ResidualMetres)} may turn the plan by {Degrees(turn)} deg, at most {Degrees(FarthestTurnRadians)} deg are "
                + "taken: touch nests farther apart in the plan, or, where all nests lie along w, masters of diameters farther apart; or state the seat axis "
                + "instead";
        }

        if (fit.WorstMetres > frame.Limits.ResidualMetres)
        {
            var worst = frame.Nests[fit.Worst];
            var stands = fit.Outlier is { } outlier
                ? $"{(outlier.Index == fit.Worst ? "it" : Named(frame.Nests[outlier.Index]))} stands out from the others: touch it again, or look for a chip "
                + "under the master"
                : "none stands out from the others: look for a swapped column, a wrong pitch, a wrong nest, or touch more nests";
            yield return $"{Named(worst)} lies {Length(fit.WorstMetres)} from its fitted place, the limit is "
                + $"{Length(frame.Limits.ResidualMetres)}; {stands}";
        }

        if (frame.OriginMissMetres.Length > frame.Limits.OriginMetres)
        {
            var (u, v, w) = frame.OriginMissMetres;
            yield return $"nest 0,0 by the touched nests lies {Length(frame.OriginMissMetres.Length)} from the taught origin ({Length(u)} "
                + $"along u, {Length(v)} along v, {Length(w)} out of the plan), the limit is {Length(frame.Limits.OriginMetres)}: the "
                + "nests are named in the reverse order, or the fixture was moved since the origin was taught. Name the nests from the taught one, teach the "
                + "origin anew, or calibrate with --origin touched";
        }
    }

    /// <summary>
    /// Masters of several diameters spread the seat centres of one nest, or of one line, a little: too little to tell a turn that acts over all nests.
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

    /// <summary>From the plan's origin at nest 0,0 to a nest, in u, v, w.</summary>
    internal static Vector3 Cell(Layout layout, in TouchedNest nest)
    {
        var offset = layout.OffsetPlan(nest.Column, nest.Row);
        return new(offset.U, offset.V, offset.W);
    }

    /// <summary>Words for a fit that failed.</summary>
    internal static string? Said(FrameFitFault fault) => fault switch
    {
        FrameFitFault.None => null,
        FrameFitFault.TooFew => "one touched nest tells no direction; two were expected at least, three or more that are not in one line are better",
        FrameFitFault.Coincident => "the touched nests lie in one place, seen along the normal, so that they tell no direction; touch nests that lie apart in "
            + "the plan; where all nests lie along w, state the seat axis instead",
        FrameFitFault.Collinear => "the touched nests lie in one line, so that the turn about it is unknown; touch one beside that line",
        FrameFitFault.AgainstNormal => "the touched nests show the plan from behind: its normal is against the stated one. The nests of one direction are "
            + "named in the reverse order, or the normal points the wrong way",
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
