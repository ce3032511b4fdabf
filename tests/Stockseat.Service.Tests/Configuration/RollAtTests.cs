using Stockseat.Service.Configuration;

namespace Stockseat.Service.Tests.Configuration;

public sealed class RollAtTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("stockseat-settings-").FullName;

    [Theory]
    [InlineData("{}", null, null, "never", "default")]
    [InlineData("""{ "Ledger": { "RollAt": "4 GB" } }""", null, 4_000_000_000L, "4 GB", "file")]
    [InlineData("""{ "Ledger": { "RollAt": "500MB" } }""", null, 500_000_000L, "500MB", "file")]
    [InlineData("""{ "Ledger": { "RollAt": "1000 GB" } }""", "never", null, "never", "environment")]
    [InlineData("""{ "Ledger": { } }""", "1 MB", 1_000_000L, "1 MB", "environment")]
    public void A_size_is_read(string file, string? environment, long? bytes, string text, string source)
    {
        var path = Path.Combine(_folder, "stockseat.json");
        File.WriteAllText(path, file);
        var read = SettingsReader.Read(new(path), environment is null ? new Dictionary<string, string>() : new() { ["STOCKSEAT_LEDGER_ROLLAT"] = environment });

        Assert.Empty(read.Faults);
        Assert.Equal(bytes, read.Settings!.Ledger.RollAt);
        Assert.Contains(new("Ledger:RollAt", text, source), read.Settings.Sources);
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);
}
