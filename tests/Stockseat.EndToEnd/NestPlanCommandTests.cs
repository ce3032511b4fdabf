using System.Text.Json;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>Which nest suits a range of diameters, as a setter asks.</summary>
public abstract class NestPlanCommandTests(Build build) : OnBothBuilds(build)
{
    private static readonly string[] Gripper =
        ["--jaws", "3", "--jaw-width", "16mm", "--jaw-thickness", "12mm", "--clocking", "30deg", "--open-by", "12mm", "--stroke", "40mm,115mm"];

    public sealed class Ordinary() : NestPlanCommandTests(Build.Ordinary);

    public sealed class Native() : NestPlanCommandTests(Build.Native);

    [Fact]
    public async Task The_best_nest_is_printed_first_with_the_reason()
    {
        var said = (await Program.Run("nest", "plan", "--from", "60mm", "--to", "100mm", "--pin", "10mm", "--holes", "25mm", "--vee", "90deg")).Exits(0)
            .Out.Split('\n');

        // By hand: margins 15 deg for the vee, 60 − asin(50/70) = 14.4 deg for 2 holes, asin(25/110) − 5 = 8.1 deg for 1; at 75 mm stock of 60 mm drops, and at
        // 100 mm the middle of the range too.
        Assert.Equal("3 of 5 hold 60 mm to 100 mm:", said[0]);
        Assert.StartsWith("nest", said[1], StringComparison.Ordinal);
        Assert.Matches(@"^vee 90 +yes +45\.0 \| 45\.0 +1\.414 \| 1\.414 +15\.0 +28\.28 ", said[2]);
        Assert.Matches(@"^pins 10, 50 apart \(2 pitches\) +yes +45\.6 \| 27\.0 +1\.429 \| 1\.123 +14\.4 ", said[3]);
        Assert.Matches(@"^pins 10, 25 apart \(1 pitch\) +yes ", said[4]);
        Assert.Matches(@"^pins 10, 75 apart \(3 pitches\) +no +none \| 43\.0 +none \| 1\.367 .*76\.61 to .* sensitivity 2 \| held angle 5 deg$", said[5]);
        Assert.Matches(@"^pins 10, 100 apart \(4 pitches\) +no .* none +at 80: stock drops through$", said[6]);
        Assert.Contains(
            said, l => l.StartsWith("Best first: nests that hold the whole range; ", StringComparison.Ordinal)
                && l.Contains("from 5 deg (held loosely) and from 60 deg (sensitivity 2)", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Machines_get_one_object_with_the_gaps_and_their_bodies()
    {
        var json = (
            await Program.Run(
                [
                    "nest", "plan", "--from", "60mm", "--to", "100mm", "--pin", "10mm", "--pin", "12mm", "--spacing", "40mm", "--pitch", "125mm,130mm", "--gap",
                    "2mm", "--count", "1", "--json", .. Gripper,
                ])).Exits(0).Object;

        Assert.Equal((0.06, 0.1, 0.002), (json.GetProperty("from").GetDouble(), json.GetProperty("to").GetDouble(), json.GetProperty("gapLimit").GetDouble()));
        Assert.Equal((2, 2), (json.GetProperty("candidates").GetInt32(), json.GetProperty("holding").GetInt32()));
        var best = Assert.Single(json.GetProperty("nests").EnumerateArray().ToArray());
        Assert.Equal(0.01, best.GetProperty("pin").GetDouble());
        Assert.True(best.GetProperty("holds").GetBoolean());
        Assert.Equal(Math.Asin(40.0 / 70), best.GetProperty("halfAngle").GetProperty("from").GetDouble(), 1e-12);
        Assert.Equal(1 / Math.Cos(Math.Asin(40.0 / 110)), best.GetProperty("sensitivity").GetProperty("to").GetDouble(), 1e-12);
        var gap = best.GetProperty("gap");
        Assert.InRange(gap.GetProperty("length").GetDouble(), 0.002, 0.025);
        Assert.NotEmpty(gap.GetProperty("mine").GetProperty("kind").GetString()!);
        Assert.Equal("stroke", best.GetProperty("envelope").GetProperty("greatest").GetProperty("binds").GetString());
        Assert.Equal(0.103, best.GetProperty("envelope").GetProperty("greatest").GetProperty("diameter").GetDouble(), 2e-6);
        Assert.False(best.TryGetProperty("face", out _));
    }

    [Fact]
    public async Task When_no_nest_suits_the_nearest_are_listed_with_what_limits_them()
    {
        string[] asked = ["nest", "plan", "--from", "60mm", "--to", "100mm", "--pin", "10mm", "--spacing", "75mm", "--spacing", "80mm"];
        var said = (await Program.Run(asked)).Exits(1).Out.Split('\n');
        var json = (await Program.Run([.. asked, "--json"])).Exits(1).Object;

        Assert.Equal("None of 2 holds 60 mm to 100 mm; the nearest ones, and what stops each:", said[0]);
        Assert.StartsWith("pins 10, 75 apart", said[2], StringComparison.Ordinal);
        Assert.EndsWith("at 80: sensitivity 2", said[3], StringComparison.Ordinal);
        Assert.Equal(0, json.GetProperty("holding").GetInt32());
        Assert.Equal("sensitivity", json.GetProperty("nests")[1].GetProperty("violated").GetProperty("binds").GetString());
        Assert.Equal(
            JsonValueKind.Undefined, json.GetProperty("nests")[1].TryGetProperty("envelope", out var envelope) ? envelope.ValueKind : JsonValueKind.Undefined);
    }

    [Theory]
    [InlineData("there is nothing to choose from: name --pin with --spacing or --holes, or --vee")]
    [InlineData("--pin needs --spacing or --holes", "--pin", "10mm")]
    [InlineData("--spacing and --holes need --pin", "--holes", "25mm")]
    [InlineData("'25' is not a length above 0 with its unit", "--pin", "10mm", "--holes", "25")]
    [InlineData("'25mm,3' is not a row of holes", "--pin", "10mm", "--holes", "25mm,3")]
    [InlineData("'25mm,3,2' is not a row of holes", "--pin", "10mm", "--holes", "25mm,3,2")]
    [InlineData("are more than 10000; name fewer", "--pin", "10mm", "--holes", "0.001mm")]
    [InlineData("no multiple of the holes' pitch holds 100 mm", "--pin", "10mm", "--holes", "300mm")]
    [InlineData("the pins would overlap in all 1 combinations", "--pin", "30mm", "--spacing", "20mm")]
    [InlineData("'180deg' is not an included angle from 0.1 deg to 179.9 deg", "--vee", "180deg")]
    [InlineData("'1' is not a limit of the sensitivity; a number above 1", "--vee", "90deg", "--sensitivity", "1")]
    [InlineData("--gap is the gap to neighbours and to the gripper; state --pitch", "--vee", "90deg", "--gap", "2mm")]
    [InlineData("'1mm,2mm,3mm' is not a pitch, or two pitches with a comma", "--vee", "90deg", "--pitch", "1mm,2mm,3mm")]
    [InlineData(
        "the gripper lacks --jaw-width, --jaw-thickness, --clocking, --stroke, --open-by (or --open-to); state them too", "--vee", "90deg", "--jaws", "3")]
    [InlineData("--jaws: '9' is not a number of jaws; a whole number from 1 to 8", "--vee", "90deg", "--jaws", "9")]
    [InlineData("--face belongs to a vee", "--pin", "10mm", "--spacing", "50mm", "--face", "50mm")]
    public async Task Wrong_usage_is_reported(string said, params string[] arguments) =>
        (await Program.Run(["nest", "plan", "--from", "60mm", "--to", "100mm", .. arguments])).Fails(64, said);

    [Fact]
    public async Task An_impossible_range_or_gripper_is_reported()
    {
        (await Program.Run("nest", "plan", "--from", "100mm", "--to", "60mm", "--vee", "90deg")).Fails(64, "--from 100 mm is above --to 60 mm");
        (await Program.Run("nest", "plan", "--from", "60m", "--to", "100m", "--vee", "90deg")).Fails(64, "is not within 0.5 mm to 5000 mm: check the units");
        (await Program.Run("nest", "plan", "--vee", "90deg")).Fails(64, "--from");
        (await Program.Run(["nest", "plan", "--from", "60mm", "--to", "100mm", "--vee", "90deg", .. Gripper, "--open-to", "115mm"]))
            .Fails(64, "--open-by and --open-to; state only one");
        (await Program.Run(["nest", "plan", "--from", "60mm", "--to", "100mm", "--vee", "90deg", .. Gripper[..^1], "115mm,40mm"]))
            .Fails(64, "--stroke begins with the larger diameter");
    }
}
