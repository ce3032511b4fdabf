using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>What people are shown follows the display; what machines get never does.</summary>
public abstract class DisplayTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : DisplayTests(Build.Ordinary);

    public sealed class Native() : DisplayTests(Build.Native);

    [Fact]
    public async Task Lists_and_answers_are_in_the_unit_that_is_asked_for()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        Assert.EndsWith("pinbed-1 3.6378 in", (await service.Ask("measured", "pinbed-1", "92.4mm", "--unit", "in")).Exits(0).Out.TrimEnd(),
            StringComparison.Ordinal);

        Assert.Matches(@"measured \[in\][^\n]*\n[^\n]*pinbed-1 [^\n]* 3\.6378", (await service.Ask("fixture", "list", "--unit", "in")).Exits(0).Out);
        Assert.Matches(@"measured \[mm\][^\n]*\n[^\n]*pinbed-1 [^\n]* 92\.400", (await service.Ask("fixture", "list")).Exits(0).Out);
        Assert.Contains("16.0460  -7.8225  4.7362", (await service.Ask("locate", "pinbed-1", "--unit", "in")).Exits(0).Out, StringComparison.Ordinal);
        var entries = (await service.Ask("ledger", "list", "--unit", "in", "--zone", "Asia/Kolkata")).Exits(0).Out;
        Assert.Matches(@"at \(Asia/Kolkata\)[^\n]*\n", entries);
        Assert.Matches(@"\+05:30 +measurement [^\n]* 3\.6378 in, 1 reading", entries);
        Assert.Equal(0.0924, (await service.Ask("locate", "pinbed-1", "--unit", "in", "--json")).Exits(0).Object.GetProperty("diameter").GetDouble());
    }

    [Theory]
    [InlineData("--unit", "cm", "Display:Length: is \"cm\"; mm or in was expected")]
    [InlineData("--zone", "Nowhere", "Display:Zone: is \"Nowhere\"; local, UTC or the name of a time zone")]
    [InlineData("--paper", "A5", "Display:Paper: is \"A5\"; A4 or Letter was expected")]
    public async Task Another_value_is_wrong_usage(string option, string value, string fault) =>
        Assert.Contains(fault, (await Program.Run("nest", "plan", "--from", "60mm", "--to", "100mm", "--vee", "90deg", option, value)).Err,
            StringComparison.Ordinal);

    [Fact]
    public async Task Settings_tells_where_each_comes_from()
    {
        var settings = (await Program.Run("settings", "--json", "--unit", "in")).Exits(0).Object;

        Assert.Equal("command line", settings.GetProperty("Display:Length").GetProperty("source").GetString());
        Assert.Equal("A4", settings.GetProperty("Display:Paper").GetProperty("value").GetString());
    }
}
