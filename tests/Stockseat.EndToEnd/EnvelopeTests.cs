using System.Globalization;
using System.Text.Json;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>The diameters that `fixture check` says a fixture allows are answered over the line port, and no others.</summary>
public abstract class EnvelopeTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : EnvelopeTests(Build.Ordinary);

    public sealed class Native() : EnvelopeTests(Build.Native);

    [Theory]
    [InlineData("pinbed-1", "stated-range", "stated-range")]
    [InlineData("veerack-2", "stated-range", "stated-range")]
    [InlineData("rollers-3", "stated-range", "stated-range")]
    public async Task Just_inside_is_answered_and_just_outside_refused(string fixture, string least, string greatest)
    {
        using var cell = new Cell();
        var envelope = (await Program.Run("fixture", "check", fixture, "--config", cell.Config, "--json")).Exits(0).Object.GetProperty("envelope")
            .GetProperty("pick");

        await using var service = await Program.Serve(cell);
        using var line = await service.Connect();
        await Ends(line, fixture, envelope, least, greatest);
    }

    /// <summary>Without a stated range other constraints limit the diameter: here the sensitivity below and the stroke above.</summary>
    [Fact]
    public async Task The_limiting_constraint_is_named()
    {
        using var cell = new Cell();
        cell.Publish("pinbed-1", 3, 4, ("\"diameter\": [ \"60 mm\", \"100 mm\" ],", ""));
        var envelope = (await Program.Run("fixture", "check", "pinbed-1", "--config", cell.Config, "--json")).Exits(0).Object.GetProperty("envelope")
            .GetProperty("pick");

        await using var service = await Program.Serve(cell);
        using var line = await service.Connect();
        await Ends(line, "pinbed-1", envelope, "sensitivity", "stroke");
        Assert.Contains("its sensitivity would be above 2", (await line.Ask("locate fixture=pinbed-1 diameter=57mm")).Text, StringComparison.Ordinal);
        Assert.Contains(
            "the gripper's stroke ends at 116 mm", (await line.Ask("locate fixture=pinbed-1 diameter=104.1mm")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_revision_that_does_not_fit_is_refused_at_adoption()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        cell.Publish("pinbed-1", 3, 4, ("\"jawWidth\": \"24 mm\"", "\"jawWidth\": \"130 mm\""));

        (await service.Ask("fixture", "adopt", "pinbed-1", "4", "--by", "setter", "--why", "test"))
            .Fails(1, "refused: calibration-unusable: pinbed-1: revision 4: its own taught diameter of 80 mm does not fit: ");
        (await Program.Run("fixture", "check", "pinbed-1", "--config", cell.Config)).Exits(1);
        using var line = await service.Connect();
        Assert.Equal("ok", (await line.Ask("locate fixture=pinbed-1 diameter=80mm")).Verdict);
    }

    private static async Task Ends(LineSocket line, string fixture, JsonElement envelope, string least, string greatest)
    {
        foreach (var (end, constraint, sign, reason) in new[]
        {
            ("least", least, -1, "diameter-below-envelope"), ("greatest", greatest, 1, "diameter-above-envelope"),
        })
        {
            var side = envelope.GetProperty(end);
            Assert.Equal(constraint, side.GetProperty("constraint").GetString());
            var metres = side.GetProperty("diameter").GetDecimal();
            string Ask(decimal diameter) => string.Create(CultureInfo.InvariantCulture, $"locate fixture={fixture} diameter={diameter:0.000000000}m");

            Assert.Equal("ok", (await line.Ask(Ask(metres - (sign * 0.000_002m)))).Verdict);
            var refused = await line.Ask(Ask(metres + (sign * 0.000_002m)));
            Assert.Equal(("refused", reason), (refused.Verdict, refused["reason"]));
        }
    }
}
