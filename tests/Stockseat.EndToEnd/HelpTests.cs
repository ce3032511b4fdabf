using System.Text.RegularExpressions;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>The help of every command shows how it is typed, and what it shows can be typed.</summary>
public abstract partial class HelpTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : HelpTests(Build.Ordinary);

    public sealed class Native() : HelpTests(Build.Native);

    [Fact]
    public async Task Every_command_shows_an_example_that_can_be_typed()
    {
        var commands = await Below([]);
        Assert.True(commands.Count > 25, $"only {string.Join(", ", commands)} were found");
        foreach (var command in commands)
        {
            var examples = await Examples(command);
            Assert.True(examples.Count > 0, $"stockseat {command} --help shows no example");
            foreach (var example in examples)
            {
                Assert.Matches($"^{Regex.Escape(command)}( |$)", example);
                (await Program.Run(["[diagram]", .. Words(example)])).Exits(0);
            }
        }
    }

    [Fact]
    public async Task The_examples_of_nest_plan_find_nests()
    {
        foreach (var example in await Examples("nest plan"))
        {
            (await Program.Run([.. Words(example)])).Exits(0);
        }
    }

    [Fact]
    public async Task The_first_page_has_a_caution_groups_and_examples_that_can_be_typed()
    {
        var page = (await Program.Run("--help")).Exits(0).Out;

        var caution = Assert.Single(page.Split('\n'), l => l.StartsWith("Caution: ", StringComparison.Ordinal));
        Assert.Contains("not a safety function", caution, StringComparison.Ordinal);
        Assert.EndsWith("Local codes and licensed practice come first.", caution.TrimEnd(), StringComparison.Ordinal);
        Assert.True(page.Split('\n').Count(l => l.EndsWith(':')) >= 6, $"usage, groups and examples were expected:\n{page}");
        foreach (var example in Shown(page))
        {
            (await Program.Run(["[diagram]", .. Words(example)])).Exits(0);
        }
    }

    [Fact]
    public async Task The_diagram_of_a_wrong_line_is_wrong_usage() => (await Program.Run("[diagram]", "locate", "--diametr", "3mm")).Exits(64);

    /// <summary>The commands under one, each as it is typed, with those under them.</summary>
    private async Task<List<string>> Below(string[] above)
    {
        var help = (await Program.Run([.. above, "--help"])).Exits(0).Out;
        var start = above.Length == 0 ? 0 : help.IndexOf("\nCommands:", StringComparison.Ordinal);
        List<string> all = [];
        if (start < 0)
        {
            return all;
        }

        foreach (var name in Listed().Matches(help[start..help.IndexOf("\nExamples:", StringComparison.Ordinal)]).Select(m => m.Groups["name"].Value))
        {
            all.Add(string.Join(' ', [.. above, name]));
            all.AddRange(await Below([.. above, name]));
        }

        return all;
    }

    private async Task<List<string>> Examples(string command) => Shown((await Program.Run([.. command.Split(' '), "--help"])).Exits(0).Out);

    private static List<string> Shown(string help) =>
        help.IndexOf("\nExamples:", StringComparison.Ordinal) is var at && at < 0 ? []
        : [.. help[at..].Split('\n').Where(l => l.StartsWith("  stockseat ", StringComparison.Ordinal)).Select(l => l["  stockseat ".Length..].TrimEnd())];

    private static IEnumerable<string> Words(string line) => Word().Matches(line).Select(m => m.Value.Trim('"'));

    [GeneratedRegex("^  (?<name>[a-z]+) .*  +[a-z]", RegexOptions.Multiline)]
    private static partial Regex Listed();

    [GeneratedRegex("\"[^\"]*\"|[^ ]+")]
    private static partial Regex Word();
}
