using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

public abstract class LotCommandTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : LotCommandTests(Build.Ordinary);

    public sealed class Native() : LotCommandTests(Build.Native);

    [Fact]
    public async Task DescribeAndList_TableAndJson()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);

        Assert.Matches(
            @"^entry \d+: lot D4 has 88\.700 to 91\.300 mm\s*$",
            (await service.Ask("lot", "describe", "D4", "--nominal", "90 mm", "--tolerance", "EN 10060")).Exits(0).Out);
        var json =
            (await service.Ask("lot", "describe", "E5", "--nominal", "3.638in", "--plus", "0 mm", "--minus", "0.1mm", "--out-of-round", "20um", "--json"))
                .Exits(0).Object;
        Assert.Equal(
            ("E5", 0.0924052, 0.00002, "entry"), (
                json.GetProperty("lot").GetString(), json.GetProperty("greatest").GetDouble(), json.GetProperty("outOfRound").GetDouble(),
                json.GetProperty("from").GetString()));
        var again = (await service.Ask("lot", "describe", "D4", "--nominal", "92 mm", "--tolerance", "EN 10060")).Exits(0).Out;
        Assert.Matches(@"^entry \d+: lot D4 has 90\.700 to 93\.300 mm\nbefore this, by entry \d+, it was said that it has 88\.700 to 91\.300 mm\s*$", again);
        var back = (await service.Ask("lot", "describe", "D4", "--nominal", "90 mm", "--tolerance", "EN 10060", "--json")).Exits(0).Object;
        Assert.Equal((0.0933, 0.0907), (back.GetProperty("replaces").GetProperty("greatest").GetDouble(), back.GetProperty("replaces").GetProperty("least")
            .GetDouble()));
        Assert.Contains("lot F6 is known by its name only", (await service.Ask("lot", "describe", "F6")).Exits(0).Out, StringComparison.Ordinal);

        (await service.Ask("measured", "pinbed-1", "92.4mm", "--lot", "D4")).Fails(1, "refused: measurement-outside-lot: ");
        (await service.Ask("measured", "pinbed-1", "90.5mm", "--lot", "D4")).Exits(0);
        (await service.Ask("lot", "describe", "A1077", "--nominal", "90mm", "--tolerance", "h9"))
            .Fails(1, "refused: value-malformed: lot A1077 is described in the configuration");
        (await service.Ask("lot", "describe", "G7", "--nominal", "90mm", "--tolerance", "h99"))
            .Fails(1, "refused: value-malformed: tolerance 'h99' is not a known tolerance");

        var table = (await service.Ask("lot", "list")).Exits(0).Out;
        Assert.Matches(@"A1077 +92\.500 +92\.280 +92\.500 +h11 +configuration", table);
        Assert.Matches(@"D4 +90\.000 +88\.700 +91\.300 +1\.950 +EN 10060 +entry \d+", table);
        var lots = (await service.Ask("lot", "list", "--json")).Exits(0).Lines;
        Assert.Equal(["A1077", "B2", "D4", "E5", "F6"], lots.Select(l => l.GetProperty("lot").GetString()));
        Assert.False(lots[4].TryGetProperty("nominal", out _));
        Assert.Contains(
            "lot D4 was described, nominal 90 mm, 88.7 mm to 91.3 mm (EN 10060)", (await service.Ask("ledger", "list", "--kind", "lot-described")).Exits(0).Out,
            StringComparison.Ordinal);
        Assert.Matches(
            @"lot D4 was described, nominal 92 mm, 90\.7 mm to 93\.3 mm \(EN 10060\); before this, by entry \d+, nominal 90 mm, 88\.7 mm to 91\.3 mm",
            (await service.Ask("ledger", "list", "--kind", "lot-described")).Exits(0).Out);
    }

    [Fact]
    public async Task Describe_WithoutANameOrALength_Exits64()
    {
        (await Program.Run("lot", "describe")).Fails(64, "LOT");
        (await Program.Run("lot", "describe", "D4", "--nominal", "90")).Fails(64, "'90' is not a length above 0 with its unit");
        (await Program.Run("lot", "describe", "D4", "--nominal", "0 mm")).Fails(64, "'0 mm' is not a length above 0 with its unit");
        (await Program.Run("lot", "describe", "D4", "--plus", "1")).Fails(64, "'1' is not a length above 0 with its unit");
    }
}
