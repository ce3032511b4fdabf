using System.Globalization;
using System.Text.Json.Nodes;
using Stockseat.Answers.Cautions;
using Stockseat.Cli.Output.Shapes;
using Stockseat.Seating.Quantities;
using Stockseat.V1;
using Purpose = Stockseat.V1.Purpose;

namespace Stockseat.Cli.Output;

/// <summary>An answer to locate, for people and for machines.</summary>
internal static class AnswerView
{
    public static void Print(LocateResponse a, bool json, LengthUnit unit, (long Serial, int Left)? load = null)
    {
        if (json)
        {
            Json.Line(Of(a) with { Load = load?.Serial, Left = load?.Left });
            return;
        }

        var from = a.HasMeasurement
            ? string.Create(CultureInfo.InvariantCulture, $"measurement {a.Measurement}, {Rounded.Short(a.AgeSeconds, 0)} s old")
            : "stated";
        Plain.Table(["what", "value"],
        [
            ["serial", a.Serial.ToString(CultureInfo.InvariantCulture)],
            ["fixture, revision, digest", $"{a.Fixture}, {a.Revision}, {a.Digest[..12]}"],
            ["purpose, nest", $"{PurposeOf(a)}, {a.Column},{a.Row}"],
            [$"diameter [{unit}]", $"{unit.Fixed(a.DiameterMetres)} ({from})"],
            .. a.HasLengthMetres ? (IReadOnlyList<string>[])[[$"length [{unit}]", unit.Fixed(a.LengthMetres)]] : [],
            [$"position x y z in base [{unit}]", Three(a.PositionMetres, unit)],
            [
                "orientation w x y z",
                string.Join("  ", new[] { a.Orientation.W, a.Orientation.X, a.Orientation.Y, a.Orientation.Z }.Select(v => Rounded.Fixed(v, 6))),
            ],
            [$"shift bx by bz in base [{unit}]", Three(a.ShiftBaseMetres, unit)],
            [$"shift ox oy oz in the origin's axes [{unit}]", Three(a.ShiftOriginMetres, unit)],
            [$"U (k = 2) along, across the seat axis [{unit}]", Two(a.Uncertainty, unit)],
            .. a.UncertaintyWorst is null ? (IReadOnlyList<string>[])[]
                : [[$"U of the nest that is worst, along, across [{unit}]", Two(a.UncertaintyWorst, unit)]],
            .. a.Uncertainty is { HasNormalMetres: true } u
                ? (IReadOnlyList<string>[])[[$"U along the normal, by the length alone [{unit}]", unit.Up(u.NormalMetres)]] : [],
            .. load is { } of ? (IReadOnlyList<string>[])[["load, nests left after this one", $"{Number(of.Serial)}, {Number(of.Left)}"]] : [],
            ["first", a.First ? "yes: run it at reduced speed with people clear" : "no"],
        ]);
        foreach (var budget in a.Budgets)
        {
            BudgetView.Print(budget, unit);
        }

        Plain.Line(Caution.Short("Stockseat", Caution.Shift));
    }

    private static string Number(long number) => number.ToString(CultureInfo.InvariantCulture);

    private static string Two(Uncertainty? u, LengthUnit unit) => u is null ? "not known" : $"{unit.Up(u.AlongMetres)}  {unit.Up(u.AcrossMetres)}";

    private static string Three(Vector v, LengthUnit unit) => $"{unit.Fixed(v.X)}  {unit.Fixed(v.Y)}  {unit.Fixed(v.Z)}";

    private static AnswerShape Of(LocateResponse a) => new(
        a.Serial, a.Fixture, a.Revision, a.Digest, PurposeOf(a), [a.Column, a.Row], a.DiameterMetres, "m", a.First, Vector(a.PositionMetres),
        [a.Orientation.W, a.Orientation.X, a.Orientation.Y, a.Orientation.Z], Vector(a.ShiftBaseMetres), Vector(a.ShiftOriginMetres),
        a.HasMeasurement ? a.Measurement : null, a.HasMeasurement ? a.AgeSeconds : null,
        a.Uncertainty is { } u ? BudgetView.Of(u) : null, a.UncertaintyWorst is { } worst ? BudgetView.Of(worst) : null,
        a.Budgets.Count > 0 ? a.Budgets.Select(BudgetView.Of) : null, a.Tag.Length > 0 ? a.Tag : null);

    private static string PurposeOf(LocateResponse a) => a.Purpose == Purpose.Place ? "place" : "pick";

    private static double[] Vector(Vector v) => [v.X, v.Y, v.Z];
}
