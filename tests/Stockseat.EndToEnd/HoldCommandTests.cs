using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

public abstract class HoldCommandTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : HoldCommandTests(Build.Ordinary);

    public sealed class Native() : HoldCommandTests(Build.Native);

    [Fact]
    public async Task HoldAndRelease_TableAndJson()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        using var socket = await service.Connect();

        Assert.Contains(
            "pinbed-1 is held by setter", (await service.Ask("fixture", "hold", "pinbed-1", "--by", "setter", "--why", "pins are changed")).Exits(0).Out,
            StringComparison.Ordinal);
        var second = (await service.Ask("fixture", "hold", "pinbed-1", "--by", "maintenance", "--why", "air is off", "--json")).Exits(0).Object;

        (await service.Ask("locate", "pinbed-1", "--diameter", "92.40mm")).Fails(1, "refused: fixture-held: pinbed-1 is held by setter since entry ");
        Assert.Equal("fixture-held", (await socket.Ask("locate fixture=pinbed-1 diameter=92.40mm"))["reason"]);
        var list = (await service.Ask("fixture", "list")).Exits(0).Out;
        Assert.Contains("no: fixture-held", list, StringComparison.Ordinal);
        Assert.Contains("(pins are changed), by maintenance since entry", list, StringComparison.Ordinal);
        var holds = (await service.Ask("fixture", "list", "--json")).Exits(0).Lines[0].GetProperty("holds");
        Assert.Equal(second.GetProperty("serial").GetInt64(), holds[1].GetProperty("serial").GetInt64());

        Assert.Contains(
            "still held, by 1", (await service.Ask("fixture", "release", "pinbed-1", "--by", "setter", "--why", "done")).Exits(0).Out,
            StringComparison.Ordinal);
        (await service.Ask("fixture", "release", "pinbed-1", "--by", "setter", "--why", "done")).Fails(1, "it is held by maintenance since entry ");
        Assert.Equal(
            0, (await service.Ask("fixture", "release", "pinbed-1", "--by", "setter", "--why", "asked them", "--of", "maintenance", "--json")).Exits(0)
                .Object.GetProperty("left").GetInt32());
        (await service.Ask("locate", "pinbed-1", "--diameter", "92.40mm")).Exits(0);
        var rows = (await service.Ask("ledger", "list", "--kind", "released")).Exits(0).Out;
        Assert.Contains("setter released the hold of maintenance: asked them; none is left", rows, StringComparison.Ordinal);
        (await service.Ask("ledger", "verify")).Exits(0);
    }

    [Fact]
    public async Task Hold_WithoutANameOrAReason_Exits64()
    {
        (await Program.Run("fixture", "hold", "pinbed-1", "--by", "setter")).Fails(64, "--why");
        (await Program.Run("fixture", "release", "pinbed-1", "--why", "done")).Fails(64, "--by");
    }

    [Fact]
    public async Task Hold_OutlivesAKill()
    {
        using var cell = new Cell();
        await using (var first = await Program.Serve(cell))
        {
            (await first.Ask("fixture", "hold", "pinbed-1", "--by", "setter", "--why", "pins")).Exits(0);
            await first.Kill();
        }

        await using var second = await Program.Serve(cell);
        (await second.Ask("locate", "pinbed-1", "--diameter", "92.40mm")).Fails(1, "refused: fixture-held: ");
    }
}
