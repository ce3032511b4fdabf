using System.Text.RegularExpressions;

namespace Stockseat.EndToEnd.Documents;

/// <summary>A fenced block of a document.</summary>
/// <param name="Info">What stands after the opening fence, such as <c>sh run</c>.</param>
/// <param name="First">The index of its first line, after the fence.</param>
/// <param name="Lines">Its lines, without the fences.</param>
internal sealed record Block(string Info, int First, IReadOnlyList<string> Lines)
{
    public const string Commands = "sh run";
    public const string Session = "lines run";
    public const string Output = "output";

    public bool Runs => Info is Commands or Session;
}

/// <summary>One of the repository's documents, in Markdown.</summary>
internal sealed partial class Document
{
    private Document(string path)
    {
        Path = path;
        var lines = File.ReadAllLines(FullPath);
        (Lines, Blocks) = (lines, [.. Read(lines)]);
    }

    /// <summary>All documents that people read.</summary>
    public static IReadOnlyList<string> All { get; } =
    [
        "README.md", "DEVELOPERS.md", "config/README.md", "proto/README.md", "proto/reasons.md", "install/README.md",
        "install/metrics.md", "install/moving.md",
        .. Directory.EnumerateFiles(System.IO.Path.Combine(Repository.Root, "src"), "README.md", SearchOption.AllDirectories)
            .Concat(Directory.EnumerateFiles(System.IO.Path.Combine(Repository.Root, "tests"), "README.md", SearchOption.AllDirectories))
            .Where(p => !p.Contains("node_modules", StringComparison.Ordinal))
            .Select(p => System.IO.Path.GetRelativePath(Repository.Root, p).Replace('\\', '/')).Order(StringComparer.Ordinal),
    ];

    /// <summary>Its path from the repository's root.</summary>
    public string Path { get; }

    public string FullPath => System.IO.Path.Combine(Repository.Root, Path);

    public IReadOnlyList<string> Lines { get; }

    public IReadOnlyList<Block> Blocks { get; }

    /// <summary>The lines outside fenced blocks, each with its number from 1.</summary>
    public IEnumerable<(int Number, string Text)> Prose
    {
        get
        {
            var inside = false;
            for (var i = 0; i < Lines.Count; i++)
            {
                if (Fence().IsMatch(Lines[i]))
                {
                    inside = !inside;
                }
                else if (!inside)
                {
                    yield return (i + 1, Lines[i]);
                }
            }
        }
    }

    public static Document Open(string path) => new(path);

    private static IEnumerable<Block> Read(string[] lines)
    {
        for (var i = 0; i < lines.Length; i++)
        {
            if (Fence().Match(lines[i]) is { Success: true } opening)
            {
                var end = Array.FindIndex(lines, i + 1, l => l == "```");
                Assert.True(end > 0, $"a block that begins at line {i + 1} has no end");
                yield return new(opening.Groups["info"].Value, i + 1, lines[(i + 1)..end]);
                i = end;
            }
        }
    }

    [GeneratedRegex("^```(?<info>.*)$")]
    private static partial Regex Fence();
}
