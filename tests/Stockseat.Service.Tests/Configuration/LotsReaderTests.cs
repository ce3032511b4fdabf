using Stockseat.Service.Configuration;

namespace Stockseat.Service.Tests.Configuration;

public sealed class LotsReaderTests
{
    [Fact]
    public void Lots_of_the_demo_are_read_and_listed()
    {
        var settings = SettingsReader.Read(new(Path.Combine(Repository.Config, "stockseat.json")), new Dictionary<string, string>()).Settings!;

        Assert.Equal(["A1077", "B2"], settings.Lots.Keys.Order(StringComparer.Ordinal));
        Assert.Equal(("h11", 0.0925, null), (settings.Lots["A1077"].Tolerance, settings.Lots["A1077"].Greatest, settings.Lots["A1077"].OutOfRound));
        Assert.Equal(0.09228, settings.Lots["A1077"].Least!.Value, 1e-12);
        Assert.Equal((null, 0.0006), (settings.Lots["B2"].Tolerance, settings.Lots["B2"].OutOfRound));
        var sources = settings.Sources.ToDictionary(s => s.Key);
        Assert.Equal(new("Lots:A1077", "nominal 0.092500 m, h11: 0.092280 to 0.092500 m, out-of-round not stated", "file"), sources["Lots:A1077"]);
        Assert.Equal(new("Lots:B2", "nominal 0.090000 m, plus and minus: 0.089200 to 0.090800 m, out-of-round 0.000600 m", "file"), sources["Lots:B2"]);
    }
}
