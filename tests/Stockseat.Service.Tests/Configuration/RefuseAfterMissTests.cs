using Stockseat.Service.Configuration;

namespace Stockseat.Service.Tests.Configuration;

public sealed class RefuseAfterMissTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("stockseat-settings-").FullName;

    [Theory]
    [InlineData("{}", null, true, "default")]
    [InlineData("""{ "RefuseAfterMiss": true }""", null, true, "file")]
    [InlineData("""{ "RefuseAfterMiss": false }""", null, false, "file")]
    [InlineData("""{ "RefuseAfterMiss": true }""", "false", false, "environment")]
    [InlineData("""{ "RefuseAfterMiss": false }""", "true", true, "environment")]
    public void The_setting_is_read_from_the_file_and_the_environment_takes_precedence(string file, string? environment, bool refuses, string source)
    {
        var settings = Read(file, environment).Settings!;

        Assert.Equal(refuses, settings.Fixtures.RefuseAfterMiss);
        Assert.Contains(new("RefuseAfterMiss", refuses ? "true" : "false", source), settings.Sources);
    }

    [Fact]
    public void Anything_but_true_and_false_is_a_fault() =>
        Assert.Contains("RefuseAfterMiss: is \"yes\"; true or false was expected", Assert.Single(Read("{}", "yes").Faults), StringComparison.Ordinal);

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private SettingsReading Read(string file, string? environment)
    {
        var path = Path.Combine(_folder, "stockseat.json");
        File.WriteAllText(path, file);
        return SettingsReader.Read(new(path), environment is null ? new Dictionary<string, string>() : new() { ["STOCKSEAT_REFUSEAFTERMISS"] = environment });
    }
}
