using System.Text.RegularExpressions;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd.Documents;

/// <summary>What the documents name is there, and they are written as documents for people should be.</summary>
public partial class DocumentTests
{
    private const int Widest = 120;
    private const int MostWordsOfTheReadme = 2500;

    // Blocks that no run can compare: what they hold is only an outline, or the test that they name reads them.
    private const string Outline = "text outline";

    public static TheoryData<string> All => [.. Document.All];

    public static TheoryData<string> Long => [.. Document.All.Where(p => Sections(Document.Open(p)).Count >= 4)];

    [Theory]
    [MemberData(nameof(All))]
    public void EveryPath_IsThere(string page)
    {
        var missing = Paths(page, File.ReadAllText(Path.Combine(Repository.Root, page)))
            .Where(p => !Path.Exists(Path.Combine(Repository.Root, p.Path))).Select(p => $"{page} names {p.Text}");

        Assert.Empty(missing);
    }

    [Theory]
    [MemberData(nameof(All))]
    public void EveryLinkToASection_FindsIt(string page)
    {
        var missing = from link in Link().Matches(File.ReadAllText(Path.Combine(Repository.Root, page))).Select(m => m.Groups["path"].Value)
                      where link.Contains('#', StringComparison.Ordinal) && !link.Contains(':', StringComparison.Ordinal)
                      let parts = link.Split('#')
                      let target = parts[0].Length == 0
                          ? page : Path.GetRelativePath(Repository.Root, Path.Combine(Repository.Root, Path.GetDirectoryName(page)!, parts[0]))
                      where !Document.Open(target).Prose.Any(l => Heading().Match(l.Text) is { Success: true } h && Anchor(h.Groups["title"].Value) == parts[1])
                      select $"{page} links to {link}";

        Assert.Empty(missing);
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Prose_IsNotTooWide(string page)
    {
        // The rows of a table can't be broken.
        var wide = Document.Open(page).Prose.Where(l => l.Text.Length > Widest && !l.Text.StartsWith('|'))
            .Select(l => $"{page}:{l.Number} has {l.Text.Length}");

        Assert.Empty(wide);
    }

    [Theory]
    [MemberData(nameof(Long))]
    public void ALongDocument_HasATableOfContents_ThatNamesEverySection(string page)
    {
        var document = Document.Open(page);
        var listed = document.Prose.SelectMany(l => Link().Matches(l.Text)).Select(m => m.Groups["path"].Value).ToHashSet(StringComparer.Ordinal);
        Assert.Subset(listed, Sections(document).Select(s => $"#{Anchor(s)}").ToHashSet(StringComparer.Ordinal));
    }

    [Theory]
    [MemberData(nameof(All))]
    public void EveryBlock_IsRunComparedOrReadByTheTestThatItNames(string page)
    {
        var blocks = Document.Open(page).Blocks;
        var loose = blocks.Where((b, i) => !(b.Runs || b.Info == Outline || (b.Info == Block.Output && i > 0 && blocks[i - 1].Info == Block.Commands)
            || (TestedBy().Match(b.Info) is { Success: true } named && IsATest(named.Groups["class"].Value))));

        Assert.Empty(loose.Select(b => $"{page}:{b.First} ```{b.Info}"));
    }

    [Fact]
    public void TheReadme_IsShort() => Assert.InRange(
        File.ReadAllText(Path.Combine(Repository.Root, "README.md")).Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries).Length, 1,
        MostWordsOfTheReadme);

    [Fact]
    public void Paths_AreFoundInLinksAndCode() => Assert.Equal(
        ["proto/README.md", "LICENSE", "config/stockseat.json", "tests/run"],
        Paths(
            "proto/README.md", "see [lines](README.md#abnf), [terms](../LICENSE), [site](https://example.org/a), [below](#here), `config/stockseat.json`, "
                + "`tests/run`, `bin/none`, `src/<name>/x`")
            .Select(p => Path.GetRelativePath(Repository.Root, Path.Combine(Repository.Root, p.Path))));

    [Theory]
    [InlineData("What a reply says, and when", "what-a-reply-says-and-when")]
    [InlineData("`first=yes`", "firstyes")]
    public void Anchors_AreThoseOfAHeading(string heading, string anchor) => Assert.Equal(anchor, Anchor(heading));

    private static IReadOnlyList<string> Sections(Document document) =>
        [.. document.Prose.Select(l => Section().Match(l.Text)).Where(m => m.Success).Select(m => m.Groups["title"].Value).Where(t => t != "Contents")];

    private static bool IsATest(string name) =>
        Directory.EnumerateFiles(Path.Combine(Repository.Root, "tests"), $"{name}.cs", SearchOption.AllDirectories).Any();

    private static string Anchor(string heading) => NotInAnchors().Replace(heading.ToLowerInvariant(), "").Replace(' ', '-');

    /// <summary>The paths that a page names, from the repository's root.</summary>
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

    [GeneratedRegex("^#+ (?<title>.+)$")]
    private static partial Regex Heading();

    [GeneratedRegex("^## (?<title>.+)$")]
    private static partial Regex Section();

    [GeneratedRegex("^[a-z]+ tested by (?<class>[A-Za-z]+)$")]
    private static partial Regex TestedBy();

    [GeneratedRegex(@"[^a-z0-9 _-]")]
    private static partial Regex NotInAnchors();
}
