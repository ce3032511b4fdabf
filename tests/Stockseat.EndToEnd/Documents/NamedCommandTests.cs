using System.Text.RegularExpressions;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd.Documents;

/// <summary>Each command that a document names is a command of the program.</summary>
public abstract partial class NamedCommandTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : NamedCommandTests(Build.Ordinary);

    public sealed class Native() : NamedCommandTests(Build.Native);

    [Fact]
    public async Task EveryCommand_InADocument_HasHelp()
    {
        var named = Document.All.SelectMany(p => Command().Matches(File.ReadAllText(Document.Open(p).FullPath))).Select(m => m.Groups["words"].Value.Trim())
            .Distinct().Order(StringComparer.Ordinal).ToList();
        Assert.True(named.Count > 15, "the documents name hardly any command");
        foreach (var words in named)
        {
            var help = (await Program.Run([.. words.Split(' '), "--help"])).Exits(0).Out;
            Assert.Contains($"stockseat {words}", help, StringComparison.Ordinal);
        }
    }

    /// <summary>In code: the program's name, which tables leave out, and the words that follow, up to an argument in capitals, an option or a name.</summary>
    [GeneratedRegex("`(stockseat )?(?<words>(serve|tour|locate|measured|emptied|confirm|done|still|settings"
        + "|(fixture|lot|ledger|nest|certificate|plant) [a-z]+))\\b")]
    private static partial Regex Command();
}
