using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

public abstract class BrokenRevisionTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : BrokenRevisionTests(Build.Ordinary);

    public sealed class Native() : BrokenRevisionTests(Build.Native);

    private const string Broken = """
        {
          "fixture": "broken-9", "revision": 1, "colour": "red",
          "calibrated": { "at": "yesterday", "by": "setter", "method": "guessed", "note": "" },
          "nest": { "pins": { "spacing": "60", "diameter": "12 mm" } },
          "taught": { "diameter": "80 furlongs", "position": { "x": "0 mm", "y": "0 mm", "z": "0 mm" }, "orientation": { "w": 1, "x": 0, "y": 0, "z": 0 } },
          "frame": { "seatAxis": { "x": 0, "y": 1, "z": 0 }, "normal": { "x": 0, "y": 0, "z": 1 } }
        }
        """;

    private static readonly string[] Faults = ["colour", "calibrated.at", "nest.pins.spacing", "taught.diameter"];

    [Fact]
    public async Task BrokenFixture_BesideGoodOnes_IsTheOnlyOneRefusedWithAllItsFaults()
    {
        using var cell = new Cell();
        cell.Write("config/fixtures/broken-9/r0001.json", Broken);
        await using var service = await Program.Serve(cell);

        var listed = (await service.Ask("fixture", "list", "--json")).Exits(0).Lines.Single(f => f.GetProperty("fixture").GetString() == "broken-9");
        var table = (await service.Ask("fixture", "list")).Exits(0).Out;

        Assert.False(listed.GetProperty("answers").GetBoolean());
        Assert.Equal("calibration-unusable", listed.GetProperty("refused").GetString());
        var faults = listed.GetProperty("faults").EnumerateArray().Select(f => f.GetString()!).ToList();
        Assert.All(Faults, f => Assert.Contains(faults, t => t.Contains(f, StringComparison.Ordinal) && t.Contains("r0001.json", StringComparison.Ordinal)));
        Assert.All(faults, f => Assert.Contains(f, table, StringComparison.Ordinal));
        (await service.Ask("locate", "broken-9", "--diameter", "80mm")).Fails(1, "refused: calibration-unusable: ");
        (await service.Ask("locate", "pinbed-1", "--diameter", "92.40mm")).Exits(0);
        (await service.Ask("locate", "veerack-2", "--diameter", "80mm")).Exits(0);
        var log = (await service.Terminate()).Log.Select(l => l.GetRawText()).ToList();
        Assert.All(Faults, f => Assert.Contains(log, l => l.Contains(f, StringComparison.Ordinal)));
    }

    [Fact]
    public async Task BrokenHigherRevision_LeavesTheOneInForce_AcrossRestarts()
    {
        using var cell = new Cell();
        await using (var first = await Program.Serve(cell))
        {
            await first.Terminate();
        }

        cell.Publish("pinbed-1", 3, 4, ("\"spacing\": \"60 mm\"", "\"spacing\": \"60\""));
        await using var service = await Program.Serve(cell);
        using var socket = await service.Connect();

        var answer = await socket.Ask("locate fixture=pinbed-1 diameter=92.40mm");
        Assert.Equal(("3", BedPick.By), (answer["revision"], answer["by"]));
        var listed = (await service.Ask("fixture", "list", "--json")).Exits(0).Lines[0];
        Assert.Contains("r0004.json", Assert.Single(listed.GetProperty("faults").EnumerateArray()).GetString()!, StringComparison.Ordinal);
        (await service.Ask("fixture", "adopt", "pinbed-1", "4", "--by", "setter", "--why", "try it")).Exits(1);
        Assert.Equal("3", (await socket.Ask("locate fixture=pinbed-1 diameter=92.40mm"))["revision"]);
    }
}
