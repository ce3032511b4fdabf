using Stockseat.Service.Configuration;

namespace Stockseat.Service.Tests.Forwarding;

public sealed class PlantSettingsTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("stockseat-settings-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void Unstated_there_is_no_plant_store() => Assert.Null(Read("{}").Settings!.Plant);

    [Fact]
    public void Connection_and_password_file_are_read_and_shown_with_their_sources()
    {
        var settings = Read("""{ "Plant": { "Connection": "Host=plant-db;Database=plant;Username=cell_4", "PasswordFile": "plant.password" } }""").Settings!;

        Assert.Equal("plant-db/plant", settings.Plant!.Name);
        Assert.Contains(new("Plant:Connection", "Host=plant-db;Database=plant;Username=cell_4", "file"), settings.Sources);
        Assert.Contains(new("Plant:PasswordFile", Path.Combine(_folder, "plant.password"), "file"), settings.Sources);
    }

    [Fact]
    public void Environment_takes_precedence() => Assert.Equal("other/plant", Read(
        """{ "Plant": { "Connection": "Host=plant-db;Database=plant;Username=cell_4" } }""",
        ("STOCKSEAT_PLANT_CONNECTION", "Host=other;Database=plant;Username=cell_4"),
        ("STOCKSEAT_PLANT_PASSWORDFILE", "/run/plant.password")).Settings!.Plant!.Name);

    [Theory]
    [InlineData("""{ "Plant": {} }""", "Plant:Connection: is missing: Plant needs a connection")]
    [InlineData("""{ "Plant": { "PasswordFile": "p" } }""", "Plant:Connection: is missing")]
    [InlineData("""{ "Plant": { "Connection": "Host=db;Username=u;Password=hush" } }""", "Plant:Connection: states a password; write it into a file")]
    [InlineData("""{ "Plant": { "Connection": "Host=db;Username=u;SSL Mode=Prefer" } }""", "Plant:Connection: states SSL Mode=Prefer")]
    [InlineData("""{ "Plant": { "Connection": "Host=db;Username=u", "Password": "hush" } }""", "Plant.Password")]
    public void Fault_says_what_to_do_and_never_a_password(string file, string expected)
    {
        var fault = Assert.Single(Read(file).Faults);

        Assert.Contains(expected, fault, StringComparison.Ordinal);
        Assert.DoesNotContain("hush", fault, StringComparison.Ordinal);
    }

    private SettingsReading Read(string text, params (string Name, string Value)[] environment)
    {
        var path = Path.Combine(_folder, "stockseat.json");
        File.WriteAllText(path, text);
        return SettingsReader.Read(new(path), environment.ToDictionary(e => e.Name, e => e.Value));
    }
}
