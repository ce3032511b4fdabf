using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>The contract follows the rules that proto/buf.yaml names.</summary>
public class BufLintTests
{
    private const int RuleBroken = 100;

    private static readonly string Proto = Path.Combine(Repository.Root, "proto");

    [Fact]
    public async Task Lint_OfTheContract_FindsNothing()
    {
        var run = (await Node.Lint(Proto)).Exits(0);

        Assert.Empty(run.Out);
        Assert.Empty(run.Err);
    }

    [Fact]
    public async Task Lint_OfAContractThatBreaksARule_NamesIt()
    {
        using var cell = new Cell();
        foreach (var file in Directory.EnumerateFiles(Proto, "*", SearchOption.AllDirectories))
        {
            var text = await File.ReadAllTextAsync(file);
            cell.Write(
                Path.Combine("proto", Path.GetRelativePath(Proto, file)), text.Replace("service LookupService", "service Lookup", StringComparison.Ordinal));
        }

        var run = (await Node.Lint(Path.Combine(cell.Folder, "proto"))).Exits(RuleBroken);

        Assert.Contains("Service name \"Lookup\" should be suffixed with \"Service\"", run.Out, StringComparison.Ordinal);
    }
}
