using System.Globalization;
using Stockseat.Answers.Cautions;
using Stockseat.Cli.Output.Shapes;
using Stockseat.Fixtures.Calibration;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Fitting;
using Stockseat.Seating.Frames;

namespace Stockseat.Cli.Output;

/// <summary>Shows how well touched nests fit.</summary>
internal static class TouchView
{
    /// <summary>How a calibration was made, in words: "6 nests touched with a master of 80 mm".</summary>
    public static string Method(IReadOnlyList<TouchedRow> rows)
    {
        var masters = rows.Select(r => Wording.Length(r.Nest.DiameterMetres)).Distinct().ToArray();
        var nests = rows.Select(r => (r.Nest.Column, r.Nest.Row)).Distinct().Count();
        return $"{nests} nest{(nests == 1 ? "" : "s")} touched with {(masters.Length == 1 ? "a master" : "masters")} of "
            + $"{(masters.Length > 8 ? $"{masters.Length} diameters" : string.Join(", ", masters))}";
    }

    public static void Print(CalibrationOutcome outcome, Revision drawing, bool originFromTouches, string? path)
    {
        if (outcome.Frame is { } frame)
        {
            Print(frame);
            if (originFromTouches)
            {
                // With the origin taken from the touches, misnamed nests fit as well: only the length of the move shows them.
                var went = frame.OriginMetres - drawing.TaughtOrigin.PositionMetres;
                var (u, v, w) = (Vector3.Dot(frame.Fit.Frame.U, went), Vector3.Dot(frame.Fit.Frame.V, went), Vector3.Dot(frame.Fit.Frame.W, went));
                Plain.Line(
                    $"The origin moves {Wording.FixedMillimetres(went.Length)} mm from that of revision {drawing.Number} ({Wording.FixedMillimetres(u)} along "
                        + $"u, {Wording.FixedMillimetres(v)} along v, {Wording.FixedMillimetres(w)} out of the plan). Make sure that the fixture was "
                        + "moved by that much: nests named one off look like a move by one pitch.");
            }
        }

        if (outcome.Locators is { } locators)
        {
            Print(locators);
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
    public static void Print(TouchedFrame frame)
    {
        var fit = frame.Fit;
        Plain.Table(
            ["nest", "master [mm]", "along u [mm]", "along v [mm]", "out of plan [mm]", "residual [mm]", ""],
            frame.Nests.Select((n, i) => (IReadOnlyList<string>)
        [
            $"{n.Column},{n.Row}", Wording.Millimetres(n.DiameterMetres), Wording.FixedMillimetres(fit.ResidualsPlan[i].X),
            Wording.FixedMillimetres(fit.ResidualsPlan[i].Y), Wording.FixedMillimetres(fit.ResidualsPlan[i].Z),
            Wording.FixedMillimetres(fit.ResidualsPlan[i].Length), i == fit.Outlier?.Index ? "stands out" : i == fit.Worst ? "worst" : "",
        ]));
        var flatness = fit.FlatnessMetres is { } flat ? $"; flat within {Wording.FixedMillimetres(flat)} mm" : "";
        var scatter = fit.SigmaMetres is { } sigma ? $"; standard deviation of one touch along an axis {Wording.FixedMillimetres(sigma)} mm" : "";
        Plain.Line(
            $"rms {Wording.FixedMillimetres(fit.RmsMetres)} mm; worst {Wording.FixedMillimetres(fit.WorstMetres)} mm, limit "
                + $"{Wording.Length(frame.Limits.ResidualMetres)}{flatness}{scatter}");
        string?[] pitch =
            [Scale("u", fit.ScaleAlongU), Scale("v", fit.ScaleAlongV), fit.SquarenessRadians is { } s ? $"u to v {Degrees(s)} deg from square" : null];
        if (pitch.Any(p => p is not null))
        {
            Plain.Line($"measured pitch divided by the pitch of the drawing: {string.Join("; ", pitch.OfType<string>())}");
        }

        Plain.Line(
            $"seat axis {Direction(fit.Frame.V)}, normal "
                + $"{Direction(fit.Frame.W)}{(fit.NormalHeld ? ", held as stated" : $", {Degrees(fit.NormalTiltRadians)} deg from the stated one")}");
        if (fit.Covariance is { } c)
        {
            var o = c.OriginMetres;
            string?[] turns = [Turn("u", c.AboutURadians), Turn("v", c.AboutVRadians), Turn("w", c.AboutWRadians)];
            Plain.Line(
                $"standard uncertainties: {string.Join(", ", turns.OfType<string>())}; nest 0,0 {Wording.FixedMillimetres(o.X)} mm along u, "
                    + $"{Wording.FixedMillimetres(o.Y)} mm along v{(fit.NormalHeld ? "" : $", {Wording.FixedMillimetres(o.Z)} mm out of the plan")}");
        }

        var (x, y, z) = frame.OriginMetres;
        Plain.Line(
            $"nest 0,0 with stock of the taught diameter: x {Wording.FixedMillimetres(x)} y {Wording.FixedMillimetres(y)} z {Wording.FixedMillimetres(z)} mm, "
                + $"{Wording.FixedMillimetres(frame.OriginMissMetres.Length)} mm from the taught origin, limit {Wording.Length(frame.Limits.OriginMetres)}");
    }

    public static CalibrationShape Of(CalibrationOutcome outcome, string? path) =>
        new(path, outcome.Faults, "m, rad", outcome.Frame is { } frame ? Of(frame) : null, outcome.Locators is { } locators ? Of(locators) : null);

    public static TouchedFrameShape Of(TouchedFrame frame)
    {
        var fit = frame.Fit;
        return new(
            frame.Nests.Select((n, i) => new TouchedNestShape([n.Column, n.Row], n.DiameterMetres, Three(n.PositionMetres), Three(fit.ResidualsPlan[i]))),
            fit.RmsMetres, fit.WorstMetres, frame.Limits.ResidualMetres,
            fit.Outlier is { } o ? [frame.Nests[o.Index].Column, frame.Nests[o.Index].Row] : null,
            fit.FlatnessMetres, fit.ScaleAlongU, fit.ScaleAlongV, fit.SquarenessRadians, Three(fit.Frame.V), Three(fit.Frame.W), fit.NormalHeld,
            fit.NormalTiltRadians, fit.DegreesOfFreedom, fit.SigmaMetres,
            fit.Covariance is { } c ? [.. Enumerable.Range(0, 6).Select(i => Enumerable.Range(0, 6).Select(j => c[i, j]).ToArray())] : null,
            Three(frame.OriginMetres), Three(frame.OriginMissMetres), frame.Limits.OriginMetres);
    }

    private static FittedLocatorsShape Of(LocatorFit fit) => new(
        fit.Parameters.Select(p => new FittedParameterShape(p.Name, p.Drawing, p.Value, p.Standard, p.PosteriorToPrior)), fit.TouchingStandardMetres,
        fit.TouchingEstimated, fit.Frame.RmsMetres);

    private static void Print(LocatorFit fit)
    {
        Plain.Table(["fitted", "drawing", "value", "standard uncertainty", "what the masters showed"], fit.Parameters.Select(p =>
        {
            var (factor, unit) = p.Name.EndsWith("Angle", StringComparison.Ordinal) ? (180 / Math.PI, "deg") : (1000.0, "mm");
            string With(double value) => $"{(value * factor).ToString("0.0000", CultureInfo.InvariantCulture)} {unit}";
            return (
                IReadOnlyList<string>)[p.Name, With(p.Drawing), With(p.Value), With(p.Standard),
                $"{(100 * p.PosteriorToPrior).ToString("0", CultureInfo.InvariantCulture)} % of the drawing's uncertainty is left"];
        }));
        Plain.Line(
            $"standard deviation of one touch along an axis: {Wording.FixedMillimetres(fit.TouchingStandardMetres)} mm, "
                + $"{(fit.TouchingEstimated ? "estimated" : "as stated")}");
    }

    private static string? Scale(string axis, double? scale) =>
        scale is { } s ? $"along {axis} {s.ToString("0.00000", CultureInfo.InvariantCulture)}" : null;

    private static string? Turn(string axis, double? radians) => radians is { } r ? $"turn about {axis} {Degrees(r)} deg" : null;

    private static string Direction(Vector3 v) =>
        string.Create(CultureInfo.InvariantCulture, $"({v.X + 0.0:0.000000}, {v.Y + 0.0:0.000000}, {v.Z + 0.0:0.000000})");

    private static string Degrees(double radians) => (Math.Round(radians * 180 / Math.PI, 4) + 0.0).ToString("0.0000", CultureInfo.InvariantCulture);

    private static double[] Three(Vector3 v) => [v.X, v.Y, v.Z];
}
