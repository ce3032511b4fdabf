using System.Text;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Fixtures.Tests.Support;

/// <summary>The demo's files as they lie in the repository.</summary>
internal static class Repository
{
    public static string Root { get; } = FindRoot();

    public static string Fixtures { get; } = Path.Combine(Root, "config", "fixtures");

    public static string Schema { get; } = File.ReadAllText(Path.Combine(Fixtures, "fixture.schema.json"));

    /// <summary>Every demo revision, as "fixture/r0001.json".</summary>
    public static string[] Demo { get; } =
        [.. Directory.EnumerateFiles(Fixtures, "r*.json", SearchOption.AllDirectories)
            .Select(p => Path.GetRelativePath(Fixtures, p).Replace('\\', '/')).Order(StringComparer.Ordinal)];

    public static TheoryData<string> DemoRows => [.. Demo];

    public static string Text(string demo) => File.ReadAllText(Path.Combine(Fixtures, demo));

    public static RevisionReading Read(string text, string file = "r.json", string? fixture = null, int? number = null) =>
        RevisionReader.Read(Encoding.UTF8.GetBytes(text), file, fixture, number);

    /// <summary>Reads a text that has no fault.</summary>
    public static Revision Good(string text)
    {
        var reading = Read(text);
        Assert.Empty(reading.Faults);
        return reading.Revision!;
    }

    /// <summary>The text with one place in it changed; the place has to be there exactly once.</summary>
    public static string Edit(string text, string old, string @new)
    {
        var at = text.IndexOf(old, StringComparison.Ordinal);
        Assert.True(at >= 0, $"not in the file: {old}");
        Assert.True(text.IndexOf(old, at + 1, StringComparison.Ordinal) < 0, $"more than once in the file: {old}");
        return text[..at] + @new + text[(at + old.Length)..];
    }

    public static string Published(string name) => File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "Published", name));

    private static string FindRoot()
    {
        var folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "Stockseat.slnx")))
        {
            folder = Path.GetDirectoryName(folder) ?? throw new InvalidOperationException("the tests run below the repository");
        }

        return folder;
    }
}
