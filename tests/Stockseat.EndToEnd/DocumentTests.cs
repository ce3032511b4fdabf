using System.Text.RegularExpressions;

namespace Stockseat.EndToEnd;

/// <summary>What the documents say can be done and found.</summary>
public partial class DocumentTests
{
    private static readonly string[] Pages = ["README.md", "DEVELOPERS.md", "proto/README.md", "proto/reasons.md"];

    [Fact]
    public void Readme_Exists() => Assert.True(File.Exists(Path.Combine(Repository.Root, "README.md")), "the repository has no README.md");

    [Fact]
    public void EveryPath_ThatADocumentNames_Exists()
    {
        var missing = from page in Pages
                      where File.Exists(Path.Combine(Repository.Root, page))
                      from path in Paths(page, File.ReadAllText(Path.Combine(Repository.Root, page)))
                      where !Path.Exists(Path.Combine(Repository.Root, path.Path))
                      select $"{page} names {path.Text}";

        Assert.Empty(missing);
    }

    [Fact]
    public void Paths_AreFoundInLinksAndCode() => Assert.Equal(
        ["proto/README.md", "LICENSE", "config/stockseat.json", "tests/run"],
        Paths(
            "proto/README.md", "see [lines](README.md#abnf), [terms](../LICENSE), [site](https://example.org/a), [below](#here), `config/stockseat.json`, "
                + "`tests/run`, `bin/none`, `src/<name>/x`")
            .Select(p => Path.GetRelativePath(Repository.Root, Path.Combine(Repository.Root, p.Path))));

    /// <summary>The paths that a document names, from the repository's root.</summary>
    private static IEnumerable<(string Text, string Path)> Paths(string page, string text)
    {
        var folder = Path.GetDirectoryName(page)!;
        return Link().Matches(text).Select(m => m.Groups["path"].Value)
            .Where(p => !p.Contains(':', StringComparison.Ordinal) && !p.StartsWith('#'))
            .Select(p => (p, Path.Combine(folder, p.Split('#')[0])))
            .Concat(Code().Matches(text).Select(m => m.Groups["path"].Value).Select(p => (p, p)));
    }

    [GeneratedRegex(@"\]\((?<path>[^)\s]+)\)")]
    private static partial Regex Link();

    [GeneratedRegex(@"`(?<path>(src|proto|tests|config|install)/[A-Za-z0-9._/-]*)`")]
    private static partial Regex Code();
}
