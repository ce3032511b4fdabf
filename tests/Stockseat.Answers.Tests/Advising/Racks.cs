using Stockseat.Answers.Tests.Support;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Tests.Advising;

/// <summary>A bed of pins that is turned −20° about base z and has a slope of 25°, with one thing of it changed.</summary>
internal static class Racks
{
    private const string Text = """
        {
          "fixture": "pinbed-1", "revision": 1,
          "calibrated": { "at": "2026-11-20T09:12:00Z", "by": "day setter", "method": "touched", "note": "" },
          "nest": { "pins": { "spacing": "40 mm", "diameter": "12.7 mm", "between": "centres" } },
          "layout": [ { "direction": "u", "count": 5, "pitch": "75 mm" }, { "direction": "v", "count": 3, "pitch": "90 mm" } ],
          "taught": {
            "diameter": "63.5 mm", "position": { "x": "500 mm", "y": "-300 mm", "z": "250 mm" },
            "orientation": { "aboutZ": "-20 deg", "thenY": "0 deg", "thenX": "205 deg" }
          },
          "frame": { "aboutZ": "-20 deg", "thenY": "0 deg", "thenX": "25 deg" },
          "uncertainty": { "askedDiameter": "0.05 mm", "teaching": "0.1 mm" },
          "gripper": { "jaws": 2, "jawWidth": "10 mm", "jawThickness": "5 mm", "clocking": "90 deg", "openBy": "5 mm", "stroke": [ "30 mm", "90 mm" ] },
          "limits": { "diameter": [ "55 mm", "70 mm" ], "gap": "0.5 mm", "uncertainty": "0.5 mm" }
        }
        """;

    public static RevisionFile Right { get; } = With();

    public static string RightText => Text;

    public static RevisionFile With(params (string Old, string New)[] edits)
    {
        var text = Text;
        foreach (var (old, @new) in edits)
        {
            Assert.Contains(old, text, StringComparison.Ordinal);
            text = text.Replace(old, @new, StringComparison.Ordinal);
        }

        var file = Revisions.File(text.Contains("\"revision\": 2", StringComparison.Ordinal) ? 2 : 1, text);
        Assert.Empty(file.Reading.Faults);
        return file;
    }
}
