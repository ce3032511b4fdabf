using Stockseat.Service.Configuration;

namespace Stockseat.Service.Tests.Configuration;

public sealed class LedgerSettingsTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("stockseat-settings-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void Without_a_key_the_ledger_is_not_sealed_and_the_printed_settings_say_so()
    {
        var settings = Read("{}").Settings!;

        Assert.Equal(new(settings.Ledger.Data, null, 1000, TimeSpan.FromSeconds(30)), settings.Ledger);
        Assert.Contains(new("Ledger:SealKey", "none: the ledger is not sealed", "default"), settings.Sources);
        Assert.Contains(new("Ledger:SealEvery", "1000", "default"), settings.Sources);
        Assert.Contains(new("Ledger:SealAfter", "00:00:30", "default"), settings.Sources);
    }

    [Fact]
    public void The_keys_path_is_relative_to_the_file_and_its_file_is_not_read()
    {
        var settings = Read("""{ "Ledger": { "SealKey": "keys/seal.pem", "SealEvery": 1, "SealAfter": "1.00:00:00" } }""").Settings!;

        Assert.Equal(new(settings.Ledger.Data, Path.Combine(_folder, "keys", "seal.pem"), 1, TimeSpan.FromDays(1)), settings.Ledger);
        Assert.Contains(new("Ledger:SealKey", Path.Combine(_folder, "keys", "seal.pem"), "file"), settings.Sources);
    }

    [Fact]
    public void The_environment_takes_precedence_over_the_file()
    {
        var settings = Read(
            """{ "Ledger": { "SealKey": "seal.pem", "SealEvery": 1, "SealAfter": "00:00:01" } }""",
            ("STOCKSEAT_LEDGER_SEALKEY", "/etc/other.pem"), ("STOCKSEAT_LEDGER_SEALEVERY", "7"), ("STOCKSEAT_LEDGER_SEALAFTER", "00:00:07")).Settings!;

        Assert.Equal(new(settings.Ledger.Data, Path.GetFullPath("/etc/other.pem"), 7, TimeSpan.FromSeconds(7)), settings.Ledger);
        Assert.Contains(new("Ledger:SealEvery", "7", "environment"), settings.Sources);
    }

    [Theory]
    [InlineData("{}", null, 1000, "default")]
    [InlineData("""{ "Ledger": { "SnapshotEvery": 250 } }""", null, 250, "file")]
    [InlineData("""{ "Ledger": { "SnapshotEvery": 250 } }""", "100000", 100_000, "environment")]
    public void A_snapshot_is_written_after_as_many_entries_as_stated(string file, string? environment, int every, string source)
    {
        var settings = Read(file, environment is null ? [] : [("STOCKSEAT_LEDGER_SNAPSHOTEVERY", environment)]).Settings!;

        Assert.Equal(every, settings.Ledger.SnapshotEvery);
        Assert.Contains(new("Ledger:SnapshotEvery", $"{every}", source), settings.Sources);
    }

    [Theory]
    [InlineData("99")]
    [InlineData("1000001")]
    public void A_number_of_entries_outside_its_range_is_a_fault(string every)
    {
        Assert.Contains($"Ledger:SnapshotEvery: is \"{every}\"; a whole number from 100 to 1000000 was expected",
            Assert.Single(Read("{}", ("STOCKSEAT_LEDGER_SNAPSHOTEVERY", every)).Faults), StringComparison.Ordinal);
        Assert.Contains("Ledger.SnapshotEvery: is", Assert.Single(Read($$"""{ "Ledger": { "SnapshotEvery": {{every}} } }""").Faults), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("0")]
    [InlineData("1000001")]
    [InlineData("-1")]
    [InlineData("many")]
    public void A_value_in_the_environment_that_is_not_a_count_is_a_fault(string text) =>
        Assert.Contains($"Ledger:SealEvery: is \"{text}\"; a whole number from 1 to 1000000 was expected",
            Assert.Single(Read("{}", ("STOCKSEAT_LEDGER_SEALEVERY", text)).Faults), StringComparison.Ordinal);

    private SettingsReading Read(string file, params (string Name, string Value)[] environment)
    {
        var path = Path.Combine(_folder, "stockseat.json");
        File.WriteAllText(path, file);
        return SettingsReader.Read(new(path), environment.ToDictionary(e => e.Name, e => e.Value));
    }
}
