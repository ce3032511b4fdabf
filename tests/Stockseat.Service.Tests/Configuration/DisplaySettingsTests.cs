using Stockseat.Audit.Showing;
using Stockseat.Seating.Quantities;
using Stockseat.Service.Configuration;
using Stockseat.Service.Showing;

namespace Stockseat.Service.Tests.Configuration;

public sealed class DisplaySettingsTests
{
    [Fact]
    public void Unstated_it_is_millimetres_local_time_and_A4()
    {
        var settings = Read("{}").Settings!;

        Assert.Equal(new(LengthUnit.Millimetre, TimeZoneInfo.Local, PaperSize.A4), settings.Display);
        Assert.Equal(
            [new("Display:Length", "mm", "default"), new("Display:Zone", "local", "default"), new("Display:Paper", "A4", "default")],
            settings.Sources.Where(s => s.Key.StartsWith("Display:", StringComparison.Ordinal)));
    }

    [Fact]
    public void The_file_states_it()
    {
        var display = Read("""{ "Display": { "Length": "in", "Zone": "America/Chicago", "Paper": "Letter" } }""").Settings!.Display;

        Assert.Equal((LengthUnit.Inch, "America/Chicago", PaperSize.Letter), (display.Length, display.Zone.Id, display.Paper));
    }

    [Fact]
    public void The_command_line_comes_before_the_environment_and_that_before_the_file()
    {
        var read = Read(
            """{ "Display": { "Length": "mm", "Zone": "UTC", "Paper": "A4" } }""", new("in", null, null),
            ("STOCKSEAT_DISPLAY_LENGTH", "mm"), ("STOCKSEAT_DISPLAY_ZONE", "Europe/Paris"));

        var display = read.Settings!.Display;
        Assert.Equal((LengthUnit.Inch, "Europe/Paris", PaperSize.A4), (display.Length, display.Zone.Id, display.Paper));
        Assert.Equal(["command line", "environment", "file"], read.Settings.Sources.Where(s => s.Key.StartsWith("Display:", StringComparison.Ordinal))
            .Select(s => s.Source));
    }

    [Theory]
    [InlineData("""{ "Length": "cm" }""", "Display:Length: is \"cm\"; mm or in was expected")]
    [InlineData("""{ "Length": "IN" }""", "Display:Length: is \"IN\"; mm or in was expected")]
    [InlineData("""{ "Zone": "Nowhere/Nothing" }""", "Display:Zone: is \"Nowhere/Nothing\"; local, UTC or the name of a time zone")]
    [InlineData("""{ "Zone": "../Europe/Paris" }""", "Display:Zone: is \"../Europe/Paris\"; local, UTC or the name of a time zone")]
    [InlineData("""{ "Paper": "a4" }""", "Display:Paper: is \"a4\"; A4 or Letter was expected")]
    [InlineData("""{ "Units": "mm" }""", "Display.Units")]
    public void Another_value_is_a_fault(string display, string fault)
    {
        var read = Read($$"""{ "Display": {{display}} }""");

        Assert.Null(read.Settings);
        Assert.Contains(fault, Assert.Single(read.Faults), StringComparison.Ordinal);
    }

    [Fact]
    public void A_command_without_a_file_goes_by_its_switches_and_the_environment()
    {
        var display = DisplayReader.Read(new(null, "UTC", null), new Dictionary<string, string> { ["STOCKSEAT_DISPLAY_LENGTH"] = "in" }, out var faults);

        Assert.Empty(faults);
        Assert.Equal((LengthUnit.Inch, TimeZoneInfo.Utc, PaperSize.A4), (display.Length, display.Zone, display.Paper));
        DisplayReader.Read(new("ft", null, "A5"), new Dictionary<string, string>(), out faults);
        Assert.Equal(2, faults.Count);
    }

    private static SettingsReading Read(string content, DisplayOverrides? stated = null, params (string Name, string Value)[] environment)
    {
        var path = Path.Combine(Directory.CreateTempSubdirectory("stockseat-display-").FullName, "stockseat.json");
        File.WriteAllText(path, content);
        return SettingsReader.Read(new(path, Display: stated), environment.ToDictionary(e => e.Name, e => e.Value));
    }
}
