using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Fitting;
using Stockseat.Seating.Quantities;
using Stockseat.Seating.Uncertainty;

namespace Stockseat.Fixtures.Calibration;

/// <summary>How far a fitted frame is turned from that of the revision it started from, and what the turn means, in words.</summary>
public static class TurnText
{
    /// <summary>A turn is told when it is this many times its standard uncertainty, so that the scatter of touches does not explain it.</summary>
    private const double Clear = 3;

    /// <summary>The sentences, each without a full stop at its end: both deviations, then each turn that moves the far nest.</summary>
    /// <param name="turn">The turn from the frame of the drawing to the fitted one.</param>
    /// <param name="frame">The fitted frame.</param>
    /// <param name="drawing">The revision that the calibration started from.</param>
    /// <param name="unit">The unit of lengths.</param>
    public static IEnumerable<string> Sentences(FrameTurn turn, TouchedFrame frame, Revision drawing, LengthUnit unit)
    {
        var fit = frame.Fit;
        yield return fit.NormalHeld
            ? $"compared with revision {drawing.Number}, the seat axis is turned by {Degrees(turn.SeatAxisRadians)} deg; the normal is held as stated"
            : $"compared with revision {drawing.Number}, the seat axis is turned by {Degrees(turn.SeatAxisRadians)} deg and the normal by "
                + $"{Degrees(turn.NormalRadians)} deg";
        var (u, v, w) = Lengths(drawing.Layout);
        var about = turn.AboutPlanRadians;
        var standard = fit.Covariance;
        var told = false;
        foreach (var (angle, sure, way, what) in new[]
        {
            (about.Z, standard?.AboutWRadians, Way("u", u, "sideways, along v", "v", v, "sideways, along u"), "seat axis is turned in the plan"),
            (about.Y, standard?.AboutVRadians, Way("u", u, "out of the plan", "w", w, "sideways, along u"), "normal is turned"),
            (about.X, standard?.AboutURadians, Way("v", v, "out of the plan", "w", w, "along v"), "normal and the seat axis are turned together"),
        })
        {
            var off = way.Length * Math.Abs(Math.Sin(angle));
            if (off > frame.Limits.ResidualMetres / 2 && Math.Abs(angle) > Clear * (sure ?? 0))
            {
                told = true;
                yield return $"a row along {way.Row} runs off evenly {way.Off}, by {unit.Text(off)} at its far end: in revision {drawing.Number} the "
                    + $"{what}, by {Degrees(Math.Abs(angle))} deg";
            }
        }

        if (told)
        {
            yield return $"if nobody turned the fixture, look in revision {drawing.Number} for a wrong sign, a rounded direction or a wrong angle, and in the "
                + "table for nests with wrong names. If it was turned, check the taught orientation: it is kept as it was";
        }
    }

    /// <summary>The row in which a turn shows: the longer of two.</summary>
    private static (string Row, double Length, string Off) Way(
        string one, double oneLength, string oneOff, string other, double otherLength, string otherOff) =>
        oneLength >= otherLength ? (one, oneLength, oneOff) : (other, otherLength, otherOff);

    private static (double U, double V, double W) Lengths(Layout layout)
    {
        var corners = layout.Corners().Select(c => layout.OffsetPlan(c.Column, c.Row)).ToArray();
        double Longest(Func<NestOffset, double> along) => corners.Select(c => Math.Abs(along(c))).DefaultIfEmpty(0).Max();
        return (Longest(c => c.U), Longest(c => c.V), Longest(c => c.W));
    }

    private static string Degrees(double radians) => Rounded.Fixed(radians * 180 / Math.PI, 4);
}
