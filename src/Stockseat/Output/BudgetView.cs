using System.Text.Json.Nodes;
using Stockseat.Cli.Output.Shapes;
using Stockseat.Seating.Quantities;
using Stockseat.V1;

namespace Stockseat.Cli.Output;

/// <summary>An uncertainty budget: in the unit of the display for people, in metres for machines.</summary>
internal static class BudgetView
{
    public static void Print(Budget budget, LengthUnit unit)
    {
        Plain.Line("");
        Plain.Line($"What the uncertainty of nest {budget.Column},{budget.Row} is made of (along | across the seat axis):");
        Plain.Table(
            ["component", "value", "distribution", "sensitivity", $"contribution [{unit}]", "share"],
            [
                .. budget.Lines.Select(l => (IReadOnlyList<string>)
                [
                    l.Component, Value(l, unit), l.Distribution,
                    l.IsAngle ? Pair(l.SensitivityAlong, l.SensitivityAcross, s => unit.Fixed(s, -2), $" {unit}/rad")
                        : Pair(l.SensitivityAlong, l.SensitivityAcross, s => Rounded.Fixed(s, 3)),
                    Pair(l.ContributionAlongMetres, l.ContributionAcrossMetres, m => unit.Fixed(m, 1)),
                    Pair(100 * l.ShareAlong, 100 * l.ShareAcross, s => Rounded.Fixed(s, 0), " %"),
                ]),
                ["combined, k = 1", "", "", "", Pair(budget.Expanded.AlongMetres / 2, budget.Expanded.AcrossMetres / 2, m => unit.Fixed(m, 1)), ""],
                ["U, k = 2", "", "", "", Pair(budget.Expanded.AlongMetres, budget.Expanded.AcrossMetres, unit.Up), ""],
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

    private static string Value(BudgetLine l, LengthUnit unit) => (l.Distribution == "normal" ? "u " : "±")
        + (l.IsAngle ? $"{Rounded.Short(l.Value * 180 / Math.PI, 4)} deg" : $"{unit.Short(l.Value, 1)} {unit}");

    private static string Pair(double along, double across, Func<double, string> text, string unit = "") => $"{text(along)} | {text(across)}{unit}";
}
