using System.Globalization;
using System.Text.Json.Nodes;
using Stockseat.Answers.Entries;
using Stockseat.V1;
using Purpose = Stockseat.V1.Purpose;

namespace Stockseat.Cli.Output;

/// <summary>An answer to locate, for people and for machines.</summary>
internal static class AnswerView
{
    public static void Print(LocateResponse a, bool json)
    {
        if (json)
        {
            Json.Line(Of(a));
            return;
        }

        var from = a.HasMeasurement ? string.Create(CultureInfo.InvariantCulture, $"measurement {a.Measurement}, {a.AgeSeconds:0} s old") : "stated";
        Plain.Table(["what", "value"],
        [
            ["serial", a.Serial.ToString(CultureInfo.InvariantCulture)],
            ["fixture, revision, digest", $"{a.Fixture}, {a.Revision}, {a.Digest[..12]}"],
            ["purpose, nest", $"{(a.Purpose == Purpose.Place ? "place" : "pick")}, {a.Column},{a.Row}"],
            ["diameter [m]", $"{FixedPoint.Text(a.DiameterMetres)} ({from})"],
            ["position x y z in base [m]", Three(a.PositionMetres)],
            ["orientation w x y z", string.Join("  ", new[] { a.Orientation.W, a.Orientation.X, a.Orientation.Y, a.Orientation.Z }.Select(v => FixedPoint.Text(v)))],
            ["shift bx by bz in base [m]", Three(a.ShiftBaseMetres)],
            ["shift ox oy oz in the origin's axes [m]", Three(a.ShiftOriginMetres)],
            ["U (k = 2) along, across the seat axis [m]", Two(a.Uncertainty)],
            .. a.UncertaintyWorst is null ? (IReadOnlyList<string>[])[] : [["the same, the largest of all nests [m]", Two(a.UncertaintyWorst)]],
            ["first", a.First ? "yes: run it at reduced speed with people clear" : "no"],
        ]);
        foreach (var budget in a.Budgets)
        {
            BudgetView.Print(budget);
        }
    }

    private static string Two(Uncertainty? u) => u is null ? "not known" : $"{Up(u.AlongMetres)}  {Up(u.AcrossMetres)}";

    private static string Up(double metres) => FixedPoint.Text(FixedPoint.Above(metres, FixedPoint.UsualDecimals));

    private static string Three(Vector v) => $"{FixedPoint.Text(v.X)}  {FixedPoint.Text(v.Y)}  {FixedPoint.Text(v.Z)}";

    private static JsonObject Of(LocateResponse a)
    {
        var value = new JsonObject
        {
            ["serial"] = a.Serial,
            ["fixture"] = a.Fixture,
            ["revision"] = a.Revision,
            ["digest"] = a.Digest,
            ["purpose"] = a.Purpose == Purpose.Place ? "place" : "pick",
            ["nest"] = new JsonArray(a.Column, a.Row),
            ["diameter"] = a.DiameterMetres,
            ["unit"] = "m",
            ["first"] = a.First,
            ["position"] = Vector(a.PositionMetres),
            ["orientation"] = new JsonArray(a.Orientation.W, a.Orientation.X, a.Orientation.Y, a.Orientation.Z),
            ["shiftBase"] = Vector(a.ShiftBaseMetres),
            ["shiftOrigin"] = Vector(a.ShiftOriginMetres),
        };
        if (a.HasMeasurement)
        {
            value["measurement"] = a.Measurement;
            value["age"] = a.AgeSeconds;
        }

        if (a.Uncertainty is { } u)
        {
            value["uncertainty"] = BudgetView.Of(u);
        }

        if (a.UncertaintyWorst is { } worst)
        {
            value["uncertaintyWorst"] = BudgetView.Of(worst);
        }

        if (a.Budgets.Count > 0)
        {
            value["budgets"] = Json.Array(a.Budgets, BudgetView.Of);
        }

        if (a.Tag.Length > 0)
        {
            value["tag"] = a.Tag;
        }

        return value;
    }

    private static JsonArray Vector(Vector v) => new(v.X, v.Y, v.Z);
}
