using System.Text;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Tests.Support;

/// <summary>Revisions for a single test, and the demo's own.</summary>
internal static class Revisions
{
    public const string Pins = """{ "pins": { "spacing": "60 mm", "diameter": "12 mm" } }""";

    /// <summary>A revision file of the demo, such as pinbed-1/r0003.json.</summary>
    public static RevisionFile Demo(string file)
    {
        var number = int.Parse(file[^9..^5]);
        return File(number, DemoText(file), file);
    }

    public static string DemoText(string file) => Repository.Text(file);

    public static FixtureFolder Folder(params RevisionFile[] files) => new(files[0].Path.Split('/')[0], files, []);

    /// <summary>A valid file of pinbed-1: 80 mm stock taught at the origin of the base, seat axis y.</summary>
    public static RevisionFile Good(
        int number = 1, string nest = Pins, string limits = "{}", string layout = "[]", string extra = "", string standOff = "0.3 mm", string taught = "")
    {
        var file = File(number, Text(number, nest, limits, layout, extra, standOff, taught));
        Assert.Empty(file.Reading.Faults);
        return file;
    }

    public static RevisionFile Broken(int number, string mark = "x") => File(number, $"{{ \"{mark}\": 1 }}");

    public static RevisionFile File(int number, string text, string? path = null)
    {
        path ??= $"pinbed-1/r{number:0000}.json";
        var bytes = Encoding.UTF8.GetBytes(text);
        var reading = RevisionReader.Read(bytes, path, path.Split('/')[0], number);
        reading.Revision?.Prepare();
        return new(number, path, Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(bytes)), reading);
    }

    private static string Text(int number, string nest, string limits, string layout, string extra, string standOff, string taught) => $$"""
        {
          "fixture": "pinbed-1", "revision": {{number}},
          "calibrated": { "at": "2026-11-20T09:12:00Z", "by": "setter", "method": "touched", "note": "" },
          "nest": {{nest}},
          {{(layout == "[]" ? "" : $"\"layout\": {layout},")}}
          "taught": { "diameter": "80 mm", {{taught}} "position": { "x": "0 mm", "y": "0 mm", "z": "0 mm" }, "orientation": { "w": 1, "x": 0, "y": 0,
            "z": 0 } },
          "frame": { "seatAxis": { "x": 0, "y": 1, "z": 0 }, "normal": { "x": 0, "y": 0, "z": 1 } },
          "standOff": { "pick": "{{standOff}}", "place": "0.5 mm" },
          {{extra}}
          "limits": {{limits}}
        }
        """;
}
