using System.Globalization;
using CsCheck;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.Tests.Support;
using Stockseat.Seating.Frames;

namespace Stockseat.Answers.Tests.Recheck;

/// <summary>A recheck's result does not depend on where the base coordinate system lies.</summary>
public sealed class RecheckMotionTests
{
    private static readonly Gen<double> Part = Gen.Double[-1, 1];

    [Fact]
    public void The_miss_in_the_plan_is_the_same_after_any_common_rigid_motion_of_base() =>
        Gen.Select(Gen.Select(Part, Part, Part), Gen.Double[-3, 3], Gen.Select(Part, Part, Part), Gen.Select(Part, Part, Part), Gen.Double[0.07, 0.1])
            .Where((axis, _, _, _, _) => new Vector3(axis.Item1, axis.Item2, axis.Item3).Length > 0.1)
            .Sample((axis, angle, moved, found, diameter) =>
            {
                var turn = Rotation.FromAxisAngle(new(axis.Item1, axis.Item2, axis.Item3), angle);
                var by = new Vector3(moved.Item1, moved.Item2, moved.Item3);
                var at = 0.01 * new Vector3(found.Item1, found.Item2, found.Item3);

                var before = Of(Rotation.Identity, default, at, diameter);
                var after = Of(turn, by, turn.Apply(at) + by, diameter);

                Assert.InRange(after.Miss.Along - before.Miss.Along, -1e-9, 1e-9);
                Assert.InRange(after.Miss.Across - before.Miss.Across, -1e-9, 1e-9);
                Assert.InRange(after.Miss.OutOfPlan - before.Miss.OutOfPlan, -1e-9, 1e-9);
                Assert.InRange(after.Length - before.Length, -1e-9, 1e-9);
            }, iter: 200);

    private static RecheckBody Of(Rotation turn, Vector3 by, Vector3 found, double diameter)
    {
        string N(double n) => n.ToString("F15", CultureInfo.InvariantCulture);
        var (v, w) = (turn.Apply(new(0, 1, 0)), turn.Apply(new(0, 0, 1)));
        var file = Revisions.File(1, $$"""
            {
              "fixture": "pinbed-1", "revision": 1,
              "calibrated": { "at": "2026-11-20T09:12:00Z", "by": "setter", "method": "touched", "note": "" },
              "nest": { "locators": [ { "pin": { "u": "-30 mm", "v": "0 mm", "diameter": "12 mm" } }, { "pin": { "u": "34 mm", "v": "5 mm",
                "diameter": "10 mm" } } ] },
              "limits": { "diameter": ["65 mm", "105 mm"] },
              "layout": [ { "direction": "u", "count": 3, "pitch": "225 mm" }, { "direction": "v", "count": 2, "pitch": "230 mm" } ],
              "taught": {
                "diameter": "80 mm", "position": { "x": "{{N(by.X)}} m", "y": "{{N(by.Y)}} m", "z": "{{N(by.Z)}} m" },
                "orientation": { "w": {{N(turn.W)}}, "x": {{N(turn.X)}}, "y": {{N(turn.Y)}}, "z": {{N(turn.Z)}} } },
              "frame": {
                "seatAxis": { "x": {{N(v.X)}}, "y": {{N(v.Y)}}, "z": {{N(v.Z)}} },
                "normal": { "x": {{N(w.X)}}, "y": {{N(w.Y)}}, "z": {{N(w.Z)}} } }
            }
            """);
        Assert.Empty(file.Reading.Faults);
        var body = Bench.Serving(file).Do(
            new RecheckAsk(Bench.Controller, "pinbed-1") { By = "setter", MasterMetres = diameter, FoundMetres = found, Column = 2, Row = 1 });
        return body as RecheckBody ?? throw new InvalidOperationException((body as RefusalBody)?.Text);
    }
}
