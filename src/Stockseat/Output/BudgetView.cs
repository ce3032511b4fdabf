using System.Globalization;
using System.Text.Json.Nodes;
using Stockseat.Answers.Entries;
using Stockseat.Cli.Output.Shapes;
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
                    l.Component, Value(l), l.Distribution,
                    Pair(l.SensitivityAlong, l.SensitivityAcross, l.IsAngle ? "0.0000" : "0.000", l.IsAngle ? " m/rad" : ""),
                    Pair(1000 * l.ContributionAlongMetres, 1000 * l.ContributionAcrossMetres, "0.0000"),
                    Pair(100 * l.ShareAlong, 100 * l.ShareAcross, "0", " %"),
                ]),
                ["combined, k = 1", "", "", "", Pair(500 * budget.Expanded.AlongMetres, 500 * budget.Expanded.AcrossMetres, "0.0000"), ""],
                ["U, k = 2", "", "", "", Pair(Up(budget.Expanded.AlongMetres), Up(budget.Expanded.AcrossMetres), "0.000"), ""],
            ]);
        if (budget.NotStated.Count > 0)
        {
            Plain.Line($"Not stated, so not counted: {string.Join(", ", budget.NotStated)}.");
        }
    }

    public static UncertaintyShape Of(Uncertainty u) => new(u.AlongMetres, u.AcrossMetres);

    public static BudgetShape Of(Budget budget) => new([budget.Column, budget.Row], Of(budget.Expanded), budget.Lines.Select(Of), budget.NotStated);

    private static BudgetLineShape Of(BudgetLine l) => new(
        l.Component, l.Value, l.IsAngle ? "rad" : "m", l.Distribution, l.Standard, [l.SensitivityAlong, l.SensitivityAcross],
        [l.ContributionAlongMetres, l.ContributionAcrossMetres], [l.ShareAlong, l.ShareAcross]);

    private static string Value(BudgetLine l) => string.Create(
        CultureInfo.InvariantCulture,
        $"{(l.Distribution == "normal" ? "u " : "±")}{(l.IsAngle ? l.Value * 180 / Math.PI : 1000 * l.Value):0.####} {(l.IsAngle ? "deg" : "mm")}");

    /// <summary>Millimetres, rounded up: never shown too small.</summary>
    private static double Up(double metres) => 1000 * FixedPoint.Above(metres, FixedPoint.UsualDecimals);

    private static string Pair(double along, double across, string format, string unit = "") =>
        $"{along.ToString(format, CultureInfo.InvariantCulture)} | {across.ToString(format, CultureInfo.InvariantCulture)}{unit}";
}
