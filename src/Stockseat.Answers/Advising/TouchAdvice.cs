using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Advising;

/// <summary>What a setter should know about touched nests that fit well enough to be used.</summary>
internal static class TouchAdvice
{
    private const string Where = "frame.touchedNests";

    /// <summary>
    /// A normal that is stated only to say which way is out of the plan may be wrong by this much by accident. Our own choice, without a source.
    /// </summary>
    private const double TiltRadians = 0.5 * Math.PI / 180;

    public static IEnumerable<Finding> Of(Revision revision, LengthUnit unit) =>
        revision.Touched is { } touched ? [.. Shape(revision, touched, unit), .. Sure(revision, touched)] : [];

    private static IEnumerable<Finding> Shape(Revision revision, TouchedFrame touched, LengthUnit unit)
    {
        var fit = touched.Fit;
        if (fit.Outlier is { } outlier)
        {
            var nest = touched.Nests[outlier.Index];
            yield return Finding.Advice(Where, $"nest {nest.Column},{nest.Row} stands out from the other touched nests, by "
                + $"{unit.Text(fit.ResidualsPlan[outlier.Index].Length)}. Touch it again, or look at its locators");
            yield break; // An outlier distorts the figures of the other nests.
        }

        foreach (var (direction, scale) in new[] { ('u', fit.ScaleAlongU), ('v', fit.ScaleAlongV) })
        {
            var row = revision.Layout.First?.Direction == direction ? revision.Layout.First
                : revision.Layout.Second?.Direction == direction ? revision.Layout.Second : null;
            if (scale is { } s && row is { } r && Math.Abs((s - 1) * r.PitchMetres * (r.Count - 1)) is var off && off > touched.Limits.ResidualMetres / 2)
            {
                yield return Finding.Advice("layout", $"the measured pitch along {direction} is {Rounded.Fixed(s, 5)} of "
                    + $"the drawn one: a difference of {unit.Text(off)} over all {r.Count}. Correct the pitch, or touch again");
            }
        }

        if (fit.NormalTiltRadians > TiltRadians)
        {
            yield return Finding.Advice("frame.normal", $"the fitted normal is {Degrees(fit.NormalTiltRadians)} deg from the stated one. If the fixture "
                + $"is not tilted that much, touch again");
        }
    }

    /// <summary>The uncertainty of the fit should not be above the uncertainty that the revision states.</summary>
    private static IEnumerable<Finding> Sure(Revision revision, TouchedFrame touched)
    {
        if (touched.Fit.Covariance is not { } covariance)
        {
            yield break;
        }

        var turn = new[] { covariance.AboutURadians ?? 0, covariance.AboutVRadians ?? 0, covariance.AboutWRadians }.Max();
        if (revision.Uncertainty is { } stated && turn > (stated.FrameAngle?.Standard ?? 0))
        {
            var against = stated.FrameAngle is { } angle
                ? $"above the {Degrees(angle.Standard)} deg of uncertainty.frameAngle"
                : "and uncertainty.frameAngle is not stated";
            yield return Finding.Advice("uncertainty.frameAngle", $"by the touched nests, the turn of the plan is uncertain by {Degrees(turn)} deg (standard "
                + $"uncertainty), {against}. State it, or touch more nests, farther apart");
        }
    }

    private static string Degrees(double radians) => Rounded.Short(radians * 180 / Math.PI, 4);
}
