using System.Globalization;
using System.Text.Json.Nodes;
using Stockseat.Answers.Entries;
using Stockseat.V1;

namespace Stockseat.Cli.Output;

/// <summary>An uncertainty budget: in millimetres for people, in metres for machines.</summary>
internal static class BudgetView
{
    public static void Print(Budget budget)
    {
        Plain.Line("");
        Plain.Line($"What the uncertainty of nest {budget.Column},{budget.Row} is made of (along | across the seat axis):");
        Plain.Table(
            ["component", "value", "distribution", "sensitivity", "contribution [mm]", "share"],
            [
                .. budget.Lines.Select(l => (IReadOnlyList<string>)
                [
                    l.Component, Value(l), l.Distribution, Pair(l.SensitivityAlong, l.SensitivityAcross, l.IsAngle ? "0.0000" : "0.000", l.IsAngle ? " m/rad" : ""),
                    Pair(1000 * l.ContributionAlongMetres, 1000 * l.ContributionAcrossMetres, "0.0000"), Pair(100 * l.ShareAlong, 100 * l.ShareAcross, "0", " %"),
                ]),
                ["combined, k = 1", "", "", "", Pair(500 * budget.Expanded.AlongMetres, 500 * budget.Expanded.AcrossMetres, "0.0000"), ""],
                ["U, k = 2", "", "", "", Pair(Up(budget.Expanded.AlongMetres), Up(budget.Expanded.AcrossMetres), "0.000"), ""],
            ]);
        if (budget.NotStated.Count > 0)
        {
            Plain.Line($"Not stated, so nothing is counted for: {string.Join(", ", budget.NotStated)}.");
        }
    }

    public static JsonObject Of(Uncertainty u) => new() { ["along"] = u.AlongMetres, ["across"] = u.AcrossMetres, ["unit"] = "m", ["k"] = 2 };

    public static JsonObject Of(Budget budget) => new()
    {
        ["nest"] = new JsonArray(budget.Column, budget.Row),
        ["expanded"] = Of(budget.Expanded),
        ["lines"] = Json.Array(budget.Lines, Of),
        ["notStated"] = Json.Array(budget.NotStated, n => JsonValue.Create(n)),
    };

    private static JsonObject Of(BudgetLine l) => new()
    {
        ["component"] = l.Component,
        ["value"] = l.Value,
        ["unit"] = l.IsAngle ? "rad" : "m",
        ["distribution"] = l.Distribution,
        ["standard"] = l.Standard,
        ["sensitivity"] = new JsonArray(l.SensitivityAlong, l.SensitivityAcross),
        ["contribution"] = new JsonArray(l.ContributionAlongMetres, l.ContributionAcrossMetres),
        ["share"] = new JsonArray(l.ShareAlong, l.ShareAcross),
    };

    private static string Value(BudgetLine l) => string.Create(
        CultureInfo.InvariantCulture, $"{(l.Distribution == "normal" ? "u " : "±")}{(l.IsAngle ? l.Value * 180 / Math.PI : 1000 * l.Value):0.####} {(l.IsAngle ? "deg" : "mm")}");

    /// <summary>Millimetres, rounded up: never told too small.</summary>
    private static double Up(double metres) => 1000 * FixedPoint.Above(metres, FixedPoint.UsualDecimals);

    private static string Pair(double along, double across, string format, string unit = "") =>
        $"{along.ToString(format, CultureInfo.InvariantCulture)} | {across.ToString(format, CultureInfo.InvariantCulture)}{unit}";
}
