using System.Globalization;
using System.Text.Json;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;

namespace Stockseat.Seating.Tests.Published;

/// <summary>The rows of seat-cases.json, brought to metres and radians.</summary>
public static class SeatCases
{
    private static readonly Table Read = JsonSerializer.Deserialize<Table>(
        File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "Published", "seat-cases.json")), JsonSerializerOptions.Web)!;

    public static TheoryData<string> Ids => new(Read.Cases.Select(c => c.Id));

    public static TheoryData<string> ExactIds => new(Read.Exact.Select(c => c.Id));

    public static TheoryData<string> RotatedIds => new(Read.Rotated.Select(c => c.Id));

    public static Case Of(string id) => Read.Cases.Single(c => c.Id == id);

    public static ExactCase Exact(string id) => Read.Exact.Single(c => c.Id == id);

    public static RotatedCase Rotated(string id) => Read.Rotated.Single(c => c.Id == id);

    public static Nest Nest(string type, IReadOnlyDictionary<string, string> values)
    {
        double Metres(string name) => Number(values[name]) / 1000;
        PlanVector At(string name) => new(Metres(name + "_u"), Metres(name + "_v"));
        return type switch
        {
            "pin_pin" => new(Locator.Pin(At("pin1"), Metres("pin1_r")), Locator.Pin(At("pin2"), Metres("pin2_r"))),
            "face_face" => new(
                Locator.Face(At("apex"), Left(Number(values["left_half_angle_deg"]))),
                Locator.Face(At("apex"), Right(Number(values["right_half_angle_deg"])))),
            "pin_face" => new(Locator.Pin(At("pin"), Metres("pin_r")), Locator.Face(At("face"), Side(values))),
            _ => throw new InvalidDataException(type),
        };
    }

    /// <summary>The normal of a left face, which runs along (−sin a, cos a), points along (cos a, sin a).</summary>
    public static double Left(double halfDegrees) => halfDegrees * Math.PI / 180;

    /// <summary>The normal of a right face, which runs along (sin a, cos a), points along (−cos a, sin a).</summary>
    public static double Right(double halfDegrees) => Math.PI - halfDegrees * Math.PI / 180;

    /// <summary>A decimal, or a fraction of two.</summary>
    public static double Number(string text)
    {
        var parts = text.Split('/');
        return parts.Length == 1
            ? double.Parse(text, CultureInfo.InvariantCulture)
            : double.Parse(parts[0], CultureInfo.InvariantCulture) / double.Parse(parts[1], CultureInfo.InvariantCulture);
    }

    private static double Side(IReadOnlyDictionary<string, string> values) => values["face_side"] == "right"
        ? Right(Number(values["face_half_angle_deg"]))
        : Left(Number(values["face_half_angle_deg"]));

    public sealed record Case(
        string Id, string Type, Dictionary<string, string> Locators, string Diameter, string[] Centre, string[] PerRadius,
        double[][] Normals, Dictionary<string, double[]> Jacobian, double Nominal, string[] Shift)
    {
        public Nest Nest => SeatCases.Nest(Type, Locators);

        public double RadiusMetres => Number(Diameter) / 2000;

        public double NominalRadiusMetres => Nominal / 2000;
    }

    public sealed record ExactCase(
        string Id, string Type, Dictionary<string, string> Locators, string Radius, string[] Centre, string? PerRadiusV);

    public sealed record RotatedCase(string Id, double XToUDegrees, double[] ShiftBase, double Nominal, double Diameter);

    private sealed record Table(Case[] Cases, ExactCase[] Exact, RotatedCase[] Rotated);
}
