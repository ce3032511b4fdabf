using System.Text.RegularExpressions;

namespace Stockseat.Answers.Tests.Mistakes;

/// <summary>The tests that README.md names beside each mistake are there.</summary>
public sealed partial class NamedTests
{
    private static readonly string Tests = Path.Combine(Repository.Root, "tests");

    [Fact]
    public void Every_test_that_the_table_names_is_there()
    {
        var named = Named().Matches(File.ReadAllText(Path.Combine(Tests, "Stockseat.Answers.Tests", "Mistakes", "README.md")));
        var files = Directory.EnumerateFiles(Tests, "*Tests.cs", SearchOption.AllDirectories).ToLookup(f => Path.GetFileNameWithoutExtension(f));

        Assert.True(named.Count > 40);
        Assert.Empty(named.Where(n => !files[n.Groups["class"].Value].Any(f => File.ReadAllText(f).Contains($" {n.Groups["test"].Value}(")))
            .Select(n => n.Value));
    }

    [GeneratedRegex(@"`(?<class>[A-Za-z0-9]+Tests)\.(?<test>[A-Za-z0-9_]+)`")]
    private static partial Regex Named();
}
