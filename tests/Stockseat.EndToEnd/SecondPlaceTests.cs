using System.Globalization;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>The example fixtures beside the demo: a rack that is filled, and a station where the hold is changed.</summary>
public abstract class SecondPlaceTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : SecondPlaceTests(Build.Ordinary);

    public sealed class Native() : SecondPlaceTests(Build.Native);

    [Fact]
    public async Task An_empty_rack_is_filled_and_its_positions_are_those_of_the_whole_grid()
    {
        using var cell = With("finished-4");
        await using var service = await Program.Serve(cell);
        (await service.Ask("loaded", "finished-4", "--first", "0")).Exits(0);

        (await service.Ask("next", "finished-4")).Fails(1, "refused: ");
        var place = (await service.Ask("next", "finished-4", "--purpose", "place", "--diameter", "62mm", "--json")).Exits(0).Object;
        Assert.Equal((23, 0), (place.GetProperty("left").GetInt32(), place.GetProperty("nest")[0].GetInt32()));
        (await service.Ask("next", "finished-4", "--purpose", "place", "--diameter", "62mm")).Fails(1, "refused: move-unfinished: ");
        (await service.Ask("dropped", $"{place.GetProperty("serial")}", "--by", "setter")).Exits(0);

        var rows = (await service.Ask("fixture", "grid", "finished-4", "--purpose", "place", "--diameter", "62mm", "--csv")).Exits(0).Out
            .Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal((25, "column,row,x_m,y_m,z_m"), (rows.Length, rows[0]));
        var origin = place.GetProperty("position").EnumerateArray().Select(p => p.GetDouble()).ToArray();
        Assert.Equal(origin, rows[1].Split(',')[2..].Select(n => double.Parse(n, CultureInfo.InvariantCulture)), (a, b) => Math.Abs(a - b) <= 1e-9);
        Assert.True((await Program.Run("ledger", "replay", "--data", cell.Data, "--json")).Exits(0).Object.GetProperty("agrees").GetBoolean());
    }

    [Fact]
    public async Task A_longer_blank_is_held_higher_at_the_station()
    {
        using var cell = With("regrip-5");
        await using var service = await Program.Serve(cell);

        var taught = await At(service, "120mm");
        var longer = await At(service, "123mm");

        Assert.Equal(0.003, Math.Sqrt(taught.Zip(longer).Sum(p => Math.Pow(p.Second - p.First, 2))), 1e-12);
        (await service.Ask("locate", "regrip-5", "--diameter", "80mm")).Fails(1, "refused: length-missing: ");
        (await service.Ask("locate", "regrip-5", "--diameter", "80mm", "--length", "130mm")).Fails(1, "refused: length-above-limit: ");
    }

    private static async Task<double[]> At(Service service, string length) =>
        [.. (await service.Ask("locate", "regrip-5", "--diameter", "80mm", "--length", length, "--json")).Exits(0).Object.GetProperty("position")
            .EnumerateArray()
            .Select(p => p.GetDouble())];

    private static Cell With(string fixture)
    {
        var cell = new Cell();
        var file = Path.Combine(Repository.Root, "config", "examples", fixture, "r0001.json");
        cell.Write(Path.Combine("config", "fixtures", fixture, "r0001.json"), File.ReadAllText(file));
        return cell;
    }
}
