using System.Text.RegularExpressions;
using Stockseat.EndToEnd.Support;
using Stockseat.Reliability.Support;

namespace Stockseat.Reliability.Install;

/// <summary>The alerts for Prometheus: each comes when it should and not before, and names only metrics that are served.</summary>
public sealed partial class AlertRulesTests : IDisposable
{
    private static readonly string Installed = Path.Combine(Repository.Root, "install");

    private static readonly string Rules = File.ReadAllText(Path.Combine(Installed, "prometheus", "stockseat.rules.yml"));

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("stockseat-rules-");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task Rules_AlertWhenTheyShould()
    {
        var run = await Test(Rules);

        Assert.True(run.ExitCode == 0, run.Out + run.Err);
    }

    [Theory]
    [InlineData("stockseat_ledger_writable == 0", "stockseat_ledger_writable == 2")]
    [InlineData("for: 30m", "for: 10m")]
    [InlineData(" and on (instance, fixture) stockseat_fixture_held == 0", "")]
    public async Task Rules_WithAMistake_AreFound(string old, string @new)
    {
        Assert.Contains(old, Rules, StringComparison.Ordinal);

        Assert.NotEqual(0, (await Test(Rules.Replace(old, @new, StringComparison.Ordinal))).ExitCode);
    }

    [Fact]
    public void Rules_NameOnlyMetricsOfTheDocument()
    {
        var served = Names().Matches(File.ReadAllText(Path.Combine(Installed, "metrics.md"))).Select(m => m.Value).ToHashSet();
        var used = Names().Matches(Rules).Select(m => m.Value).ToHashSet();

        Assert.True(used.Count > 5, $"only {string.Join(", ", used)} were found");
        Assert.Empty(used.Except(served));
    }

    private async Task<Run> Test(string rules)
    {
        Needs.Programs("promtool");
        await File.WriteAllTextAsync(Path.Combine(_folder.FullName, "stockseat.rules.yml"), rules);
        File.Copy(Path.Combine(Repository.Root, "tests", "Stockseat.Reliability", "Install", "stockseat.rules.test.yml"),
            Path.Combine(_folder.FullName, "stockseat.rules.test.yml"), overwrite: true);
        return await Tool.Run("promtool", ["test", "rules", "stockseat.rules.test.yml"], _folder.FullName);
    }

    [GeneratedRegex("stockseat_[a-z_]+")]
    private static partial Regex Names();
}
