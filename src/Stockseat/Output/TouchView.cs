using Stockseat.Answers.Cautions;
using Stockseat.Cli.Output.Shapes;
using Stockseat.Fixtures.Calibration;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Fitting;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Quantities;

namespace Stockseat.Cli.Output;

/// <summary>Shows how well touched nests fit.</summary>
internal static class TouchView
{
    /// <summary>How a calibration was made, in words: "6 nests touched with a master of 80 mm".</summary>
    public static string Method(IReadOnlyList<TouchedRow> rows)
    {
        var masters = rows.Select(r => LengthUnit.Millimetre.Text(r.Nest.DiameterMetres)).Distinct().ToArray();
        var nests = rows.Select(r => (r.Nest.Column, r.Nest.Row)).Distinct().Count();
        return $"{nests} nest{(nests == 1 ? "" : "s")} touched with {(masters.Length == 1 ? "a master" : "masters")} of "
            + $"{(masters.Length > 8 ? $"{masters.Length} diameters" : string.Join(", ", masters))}";
    }

    public static void Print(CalibrationOutcome outcome, Revision drawing, bool originFromTouches, string? path, LengthUnit unit)
    {
        if (outcome.Frame is { } frame)
        {
            Print(frame, unit);
            foreach (var sentence in TurnText.Sentences(outcome.TurnFrom(drawing)!.Value, frame, drawing, unit))
            {
                Plain.Line($"{char.ToUpperInvariant(sentence[0])}{sentence[1..]}.");
            }

            if (originFromTouches)
            {
                // With the origin taken from the touches, misnamed nests fit as well: only the length of the move shows them.
                var went = frame.OriginMetres - drawing.TaughtOrigin.PositionMetres;
                var (u, v, w) = (Vector3.Dot(frame.Fit.Frame.U, went), Vector3.Dot(frame.Fit.Frame.V, went), Vector3.Dot(frame.Fit.Frame.W, went));
                Plain.Line(
                    $"The origin moves {unit.FixedText(went.Length)} from that of revision {drawing.Number} ({unit.Fixed(u)} along "
                        + $"u, {unit.Fixed(v)} along v, {unit.Fixed(w)} out of the plan). Make sure that the fixture was "
                        + "moved by that much: nests that are all named one too far look like a move by one pitch.");
            }
        }

        if (outcome.Locators is { } locators)
        {
            Print(locators, unit);
        }

        foreach (var fault in outcome.Faults)
        {
            Plain.Line($"fault: {fault}");
        }

        Plain.Line(outcome.Faults.Count > 0 ? "Nothing was written."
            : path is null ? "No faults; nothing was written (--dry-run)."
            : $"Wrote {path}. Apart from the number, the frame and what is named above it equals revision {drawing.Number}: check the taught orientation "
            + "and the limits.");
        if (path is not null)
        {
            Plain.Line(
                $"It waits to be adopted; no answer comes from it yet. Next: stockseat fixture check {drawing.Fixture}, fixture draw, then adopt as check "
                    + $"prints it.");
        }

        Plain.Line(Caution.Short("A calibration", Caution.Touching, Caution.First));
    }

    /// <summary>Residuals, figures, axes.</summary>
    public static void Print(TouchedFrame frame, LengthUnit unit)
    {
        var fit = frame.Fit;
        Plain.Table(
            ["nest", $"master [{unit}]", $"along u [{unit}]", $"along v [{unit}]", $"out of plan [{unit}]", $"residual [{unit}]", ""],
            frame.Nests.Select((n, i) => (IReadOnlyList<string>)
        [
            $"{n.Column},{n.Row}", unit.Short(n.DiameterMetres), unit.Fixed(fit.ResidualsPlan[i].X),
            unit.Fixed(fit.ResidualsPlan[i].Y), unit.Fixed(fit.ResidualsPlan[i].Z),
            unit.Fixed(fit.ResidualsPlan[i].Length), i == fit.Outlier?.Index ? "stands out" : i == fit.Worst ? "worst" : "",
        ]));
        var flatness = fit.FlatnessMetres is { } flat ? $"; flat within {unit.FixedText(flat)}" : "";
        var scatter = fit.SigmaMetres is { } sigma ? $"; standard deviation of one touch along an axis {unit.FixedText(sigma)}" : "";
        Plain.Line(
            $"rms {unit.FixedText(fit.RmsMetres)}; worst {unit.FixedText(fit.WorstMetres)}, limit "
                + $"{unit.Text(frame.Limits.ResidualMetres)}{flatness}{scatter}");
        string?[] pitch =
            [Scale("u", fit.ScaleAlongU), Scale("v", fit.ScaleAlongV), fit.SquarenessRadians is { } s ? $"u to v {Degrees(s)} deg from square" : null];
        if (pitch.Any(p => p is not null))
        {
            Plain.Line($"measured pitch divided by the pitch of the drawing: {string.Join("; ", pitch.OfType<string>())}");
        }

        Plain.Line(
            $"seat axis {Direction(fit.Frame.V)}, normal "
                + $"{Direction(fit.Frame.W)}{(fit.NormalHeld ? ", held as stated" : $", {Degrees(fit.NormalTiltRadians)} deg from the stated one")}");
        if (fit.Trend is { } trend)
        {
            var said = TrendText.Said(trend, unit);
            Plain.Line($"{char.ToUpperInvariant(said[0])}{said[1..]}.");
        }

        if (fit.Covariance is { } c)
        {
            var o = c.OriginMetres;
            string?[] turns = [Turn("u", c.AboutURadians), Turn("v", c.AboutVRadians), Turn("w", c.AboutWRadians)];
            Plain.Line(
                $"standard uncertainties: {string.Join(", ", turns.OfType<string>())}; nest 0,0 {unit.FixedText(o.X)} along u, "
                    + $"{unit.FixedText(o.Y)} along v{(fit.NormalHeld ? "" : $", {unit.FixedText(o.Z)} out of the plan")}");
        }

        var (x, y, z) = frame.OriginMetres;
        Plain.Line(
            $"nest 0,0 with stock of the taught diameter: x {unit.Fixed(x)} y {unit.Fixed(y)} z {unit.FixedText(z)}, "
                + $"{unit.FixedText(frame.OriginMissMetres.Length)} from the taught origin, limit {unit.Text(frame.Limits.OriginMetres)}");
    }

    public static CalibrationShape Of(CalibrationOutcome outcome, Revision drawing, string? path) => new(
        path, outcome.Faults, "m, rad", outcome.Frame is { } frame ? Of(frame) : null,
        outcome.TurnFrom(drawing) is { } t ? new(drawing.Number, t.SeatAxisRadians, t.NormalRadians, Three(t.AboutPlanRadians)) : null,
        outcome.Locators is { } locators ? Of(locators) : null);

    public static TouchedFrameShape Of(TouchedFrame frame)
    {
        var fit = frame.Fit;
        return new(
            frame.Nests.Select((n, i) => new TouchedNestShape([n.Column, n.Row], n.DiameterMetres, Three(n.PositionMetres), Three(fit.ResidualsPlan[i]))),
            fit.RmsMetres, fit.WorstMetres, frame.Limits.ResidualMetres,
            fit.Outlier is { } o ? [frame.Nests[o.Index].Column, frame.Nests[o.Index].Row] : null,
            fit.FlatnessMetres, fit.ScaleAlongU, fit.ScaleAlongV, fit.SquarenessRadians, Three(fit.Frame.V), Three(fit.Frame.W), fit.NormalHeld,
            fit.NormalTiltRadians, fit.Trend is { } t ? new(Three(t.AlongPlan), t.SlopeRadians, t.RiseMetres, Three(t.Normal)) : null,
            fit.DegreesOfFreedom, fit.SigmaMetres,
            fit.Covariance is { } c ? [.. Enumerable.Range(0, 6).Select(i => Enumerable.Range(0, 6).Select(j => c[i, j]).ToArray())] : null,
            Three(frame.OriginMetres), Three(frame.OriginMissMetres), frame.Limits.OriginMetres);
    }

    private static FittedLocatorsShape Of(LocatorFit fit) => new(
        fit.Parameters.Select(p => new FittedParameterShape(p.Name, p.Drawing, p.Value, p.Standard, p.PosteriorToPrior)), fit.TouchingStandardMetres,
        fit.TouchingEstimated, fit.Frame.RmsMetres);

    private static void Print(LocatorFit fit, LengthUnit length)
    {
        Plain.Table(["fitted", "drawing", "value", "standard uncertainty", "what the masters showed"], fit.Parameters.Select(p =>
        {
            string With(double value) => p.Name.EndsWith("Angle", StringComparison.Ordinal)
                ? $"{Rounded.Fixed(value * 180 / Math.PI, 4)} deg" : $"{length.Fixed(value, 1)} {length}";
            return (
                IReadOnlyList<string>)[p.Name, With(p.Drawing), With(p.Value), With(p.Standard),
                $"{Rounded.Fixed(100 * p.PosteriorToPrior, 0)} % of the drawing's uncertainty is left"];
        }));
        Plain.Line(
            $"standard deviation of one touch along an axis: {length.FixedText(fit.TouchingStandardMetres)}, "
                + $"{(fit.TouchingEstimated ? "estimated" : "as stated")}");
    }

    private static string? Scale(string axis, double? scale) =>
        scale is { } s ? $"along {axis} {Rounded.Fixed(s, 5)}" : null;

    private static string? Turn(string axis, double? radians) => radians is { } r ? $"turn about {axis} {Degrees(r)} deg" : null;

    private static string Direction(Vector3 v) =>
        $"({Rounded.Fixed(v.X, 6)}, {Rounded.Fixed(v.Y, 6)}, {Rounded.Fixed(v.Z, 6)})";

    private static string Degrees(double radians) => Rounded.Fixed(radians * 180 / Math.PI, 4);

    private static double[] Three(Vector3 v) => [v.X, v.Y, v.Z];
}
