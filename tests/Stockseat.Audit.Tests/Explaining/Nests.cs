using System.Globalization;
using Stockseat.Answers.Tests.Support;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Audit.Tests.Explaining;

/// <summary>Nests for a working, as a revision's file states them: mm and degrees.</summary>
internal static class Nests
{
    public static string Pins(double u1, double v1, double r1, double u2, double v2, double r2) => Two(Pin(u1, v1, r1), Pin(u2, v2, r2));

    /// <summary>Two faces through one point.</summary>
    public static string Faces(double u, double v, double first, double second) => Two(Face(u, v, first), Face(u, v, second));

    public static string PinFace(double u1, double v1, double r1, double u2, double v2, double normal) => Two(Pin(u1, v1, r1), Face(u2, v2, normal));

    public static string FacePin(double u1, double v1, double normal, double u2, double v2, double r2) => Two(Face(u1, v1, normal), Pin(u2, v2, r2));

    /// <summary>A revision with such a nest, and with no other limit that takes effect.</summary>
    public static RevisionFile Revision(string nest, string taught, string extra = "", string limits = """{ "heldAngle": "1 deg" }""")
    {
        var text = $$"""
            {
              "fixture": "pinbed-1", "revision": 1, "calibrated": { "at": "2026-11-20T09:12:00Z", "by": "setter", "method": "touched", "note": "" },
              "nest": {{nest}},
              "taught": { "diameter": "{{taught}}", "position": { "x": "10 mm", "y": "20 mm", "z": "30 mm" },
                "orientation": { "aboutZ": "30 deg", "thenY": "10 deg", "thenX": "170 deg" } },
              "frame": { "seatAxis": { "x": 0.6, "y": 0.8, "z": 0 }, "normal": { "x": 0, "y": 0, "z": 1 } },
              "standOff": { "pick": "0 mm", "place": "0.5 mm" },
              {{extra}}
              "limits": {{limits}}
            }
            """;
        var file = Revisions.File(1, text);
        Assert.Empty(file.Reading.Faults);
        return file;
    }

    private static string Two(string first, string second) => $$"""{ "locators": [ {{first}}, {{second}} ] }""";

    private static string Pin(double u, double v, double r) => $$"""{ "pin": { "u": "{{N(u)}} mm", "v": "{{N(v)}} mm", "diameter": "{{N(2 * r)}} mm" } }""";

    private static string Face(double u, double v, double normal) =>
        $$"""{ "face": { "u": "{{N(u)}} mm", "v": "{{N(v)}} mm", "normal": "{{N(normal)}} deg" } }""";

    private static string N(double value) => value.ToString("0.####", CultureInfo.InvariantCulture);
}
