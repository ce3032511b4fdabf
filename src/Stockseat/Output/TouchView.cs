using System.Globalization;
using System.Text.Json.Nodes;
using Stockseat.Fixtures.Calibration;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Fitting;
using Stockseat.Seating.Frames;

namespace Stockseat.Cli.Output;

/// <summary>Shows how touched nests fit.</summary>
internal static class TouchView
{
    /// <summary>How a calibration was made, in words: "6 nests touched with a master of 80 mm".</summary>
    public static string Method(IReadOnlyList<TouchedRow> rows)
    {
        var masters = rows.Select(r => Wording.Length(r.Nest.DiameterMetres)).Distinct().ToArray();
        var nests = rows.Select(r => (r.Nest.Column, r.Nest.Row)).Distinct().Count();
        return $"{nests} nest{(nests == 1 ? "" : "s")} touched with {(masters.Length == 1 ? "a master" : "masters")} of {(masters.Length > 8 ? $"{masters.Length} diameters" : string.Join(", ", masters))}";
    }

    public static void Print(CalibrationOutcome outcome, Revision drawing, bool originFromTouches, string? path)
    {
        if (outcome.Frame is { } frame)
        {
            Print(frame);
            if (originFromTouches)
            {
                // By itself it fits any nest that was named for another: only how far it went shows that.
                var went = frame.OriginMetres - drawing.TaughtOrigin.PositionMetres;
                var (u, v, w) = (Vector3.Dot(frame.Fit.Frame.U, went), Vector3.Dot(frame.Fit.Frame.V, went), Vector3.Dot(frame.Fit.Frame.W, went));
                Plain.Line($"The origin goes {Mm(went.Length)} mm from that of revision {drawing.Number} ({Mm(u)} along u, {Mm(v)} along v, {Mm(w)} out of the plan). Make sure that the fixture was moved so: nests that are named one off show as a move by a pitch.");
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
            : path is null ? "No faults; nothing was written, as asked."
            : $"Wrote {path}. All but the number, the frame and what is named above is as in revision {drawing.Number}: check the taught orientation and the limits.");
        if (path is not null)
        {
            Plain.Line($"It waits; nothing is served from it yet. Next: stockseat fixture check {drawing.Fixture}, fixture draw, then adopt as check prints.");
        }
    }

    /// <summary>Residuals, figures, axes.</summary>
    public static void Print(TouchedFrame frame)
    {
        var fit = frame.Fit;
        Plain.Table(["nest", "master [mm]", "along u [mm]", "along v [mm]", "out of plan [mm]", "residual [mm]", ""], frame.Nests.Select((n, i) => (IReadOnlyList<string>)
        [
            $"{n.Column},{n.Row}", Wording.Millimetres(n.DiameterMetres), Mm(fit.ResidualsPlan[i].X), Mm(fit.ResidualsPlan[i].Y), Mm(fit.ResidualsPlan[i].Z),
            Mm(fit.ResidualsPlan[i].Length), i == fit.Outlier?.Index ? "stands out" : i == fit.Worst ? "worst" : "",
        ]));
        Plain.Line($"rms {Mm(fit.RmsMetres)} mm; worst {Mm(fit.WorstMetres)} mm, limit {Wording.Length(frame.Limits.ResidualMetres)}{(fit.FlatnessMetres is { } flat ? $"; flat within {Mm(flat)} mm" : "")}{(fit.SigmaMetres is { } sigma ? $"; one touch scatters by {Mm(sigma)} mm along an axis (standard deviation)" : "")}");
        string?[] pitch = [Scale("u", fit.ScaleAlongU), Scale("v", fit.ScaleAlongV), fit.SquarenessRadians is { } s ? $"u to v {Degrees(s)} deg from square" : null];
        if (pitch.Any(p => p is not null))
        {
            Plain.Line($"measured pitch against the drawing: {string.Join("; ", pitch.OfType<string>())}");
        }

        Plain.Line($"seat axis {Direction(fit.Frame.V)}, normal {Direction(fit.Frame.W)}{(fit.NormalHeld ? ", held as stated" : $", {Degrees(fit.NormalTiltRadians)} deg from the stated one")}");
        if (fit.Covariance is { } c)
        {
            var o = c.OriginMetres;
            string?[] turns = [Turn("u", c.AboutURadians), Turn("v", c.AboutVRadians), Turn("w", c.AboutWRadians)];
            Plain.Line($"standard uncertainties: {string.Join(", ", turns.OfType<string>())}; nest 0,0 {Mm(o.X)} mm along u, {Mm(o.Y)} mm along v{(fit.NormalHeld ? "" : $", {Mm(o.Z)} mm out of the plan")}");
        }

        var (x, y, z) = frame.OriginMetres;
        Plain.Line($"nest 0,0 with stock of the taught diameter: x {Mm(x)} y {Mm(y)} z {Mm(z)} mm, {Mm(frame.OriginMissMetres.Length)} mm from the taught origin, limit {Wording.Length(frame.Limits.OriginMetres)}");
    }

    public static JsonObject Of(CalibrationOutcome outcome, string? path)
    {
        var value = new JsonObject { ["written"] = path, ["faults"] = Json.Array(outcome.Faults, f => JsonValue.Create(f)), ["unit"] = "m, rad" };
        if (outcome.Frame is { } frame)
        {
            value["frame"] = Of(frame);
        }

        if (outcome.Locators is { } locators)
        {
            value["locators"] = new JsonObject
            {
                ["parameters"] = Json.Array(locators.Parameters, p => new JsonObject
                {
                    ["name"] = p.Name, ["drawing"] = p.Drawing, ["value"] = p.Value, ["standard"] = p.Standard, ["posteriorToPrior"] = p.PosteriorToPrior,
                }),
                ["touching"] = locators.TouchingStandardMetres,
                ["touchingEstimated"] = locators.TouchingEstimated,
                ["rms"] = locators.Frame.RmsMetres,
            };
        }

        return value;
    }

    public static JsonObject Of(TouchedFrame frame)
    {
        var fit = frame.Fit;
        return new()
        {
            ["nests"] = Json.Array(frame.Nests.Select((n, i) => (Nest: n, Residual: fit.ResidualsPlan[i])), p => new JsonObject
            {
                ["nest"] = new JsonArray(p.Nest.Column, p.Nest.Row), ["diameter"] = p.Nest.DiameterMetres, ["found"] = Three(p.Nest.PositionMetres), ["residual"] = Three(p.Residual),
            }),
            ["rms"] = fit.RmsMetres,
            ["worst"] = fit.WorstMetres,
            ["residualLimit"] = frame.Limits.ResidualMetres,
            ["standsOut"] = fit.Outlier is { } o ? new JsonArray(frame.Nests[o.Index].Column, frame.Nests[o.Index].Row) : null,
            ["flatness"] = fit.FlatnessMetres,
            ["scaleAlongU"] = fit.ScaleAlongU,
            ["scaleAlongV"] = fit.ScaleAlongV,
            ["squareness"] = fit.SquarenessRadians,
            ["seatAxis"] = Three(fit.Frame.V),
            ["normal"] = Three(fit.Frame.W),
            ["normalHeld"] = fit.NormalHeld,
            ["normalTilt"] = fit.NormalTiltRadians,
            ["degreesOfFreedom"] = fit.DegreesOfFreedom,
            ["sigma"] = fit.SigmaMetres,
            ["covariance"] = fit.Covariance is { } c ? Json.Array(Enumerable.Range(0, 6), i => Json.Array(Enumerable.Range(0, 6), j => JsonValue.Create(c[i, j]))) : null,
            ["origin"] = Three(frame.OriginMetres),
            ["originMiss"] = Three(frame.OriginMissMetres),
            ["originLimit"] = frame.Limits.OriginMetres,
        };
    }

    private static void Print(LocatorFit fit)
    {
        Plain.Table(["fitted", "drawing", "value", "standard uncertainty", "what the masters told"], fit.Parameters.Select(p =>
        {
            var (factor, unit) = p.Name.EndsWith("Angle", StringComparison.Ordinal) ? (180 / Math.PI, "deg") : (1000.0, "mm");
            string With(double value) => $"{(value * factor).ToString("0.0000", CultureInfo.InvariantCulture)} {unit}";
            return (IReadOnlyList<string>)[p.Name, With(p.Drawing), With(p.Value), With(p.Standard), $"{(100 * p.PosteriorToPrior).ToString("0", CultureInfo.InvariantCulture)} % of the drawing's uncertainty is left"];
        }));
        Plain.Line($"one touch scatters by {Mm(fit.TouchingStandardMetres)} mm along an axis (standard deviation), {(fit.TouchingEstimated ? "estimated" : "as stated")}");
    }

    private static string? Scale(string axis, double? scale) => scale is { } s ? $"along {axis} {s.ToString("0.00000", CultureInfo.InvariantCulture)} of it" : null;

    private static string? Turn(string axis, double? radians) => radians is { } r ? $"turn about {axis} {Degrees(r)} deg" : null;

    private static string Direction(Vector3 v) => string.Create(CultureInfo.InvariantCulture, $"({v.X + 0.0:0.000000}, {v.Y + 0.0:0.000000}, {v.Z + 0.0:0.000000})");

    private static string Mm(double metres) => (Math.Round(1000 * metres, 3) + 0.0).ToString("0.000", CultureInfo.InvariantCulture);

    private static string Degrees(double radians) => (Math.Round(radians * 180 / Math.PI, 4) + 0.0).ToString("0.0000", CultureInfo.InvariantCulture);

    private static JsonArray Three(Vector3 v) => new(v.X, v.Y, v.Z);
}
