using Stockseat.EndToEnd.Sources;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>The folders of a project use each other in one direction only, in the order of <c>Sources/folders.txt</c>; and rules for every source.</summary>
public class FolderTests
{
    private const int Longest = 160;

    private static readonly string[] Orders = File.ReadAllLines(Path.Combine(Repository.Root, "tests", "Stockseat.EndToEnd", "Sources", "folders.txt"));

    public static TheoryData<string> Projects => [.. Below("src").Select(p => Path.GetFileName(p))];

    public static TheoryData<string> All => [.. Below("src").Concat(Below("tests")).Select(p => Path.GetRelativePath(Repository.Root, p).Replace('\\', '/'))];

    [Theory]
    [MemberData(nameof(Projects))]
    public void Folders_UseOnlyThoseBeforeThem(string name)
    {
        var project = Read($"src/{name}");

        Assert.True(
            FolderOrder.Read(Orders).TryGetValue(name, out var order),
            $"{name} has no line in folders.txt; it could be: {FolderOrder.Of(project) ?? "none, its folders form a circle"}");
        Holds(order.Faults(project));
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Namespace_IsTheFolder(string folder)
    {
        var project = Read(folder);

        Holds(project.Files.Where(f => f.Types.Count > 0 && f.Namespace.Length > 0 && f.Namespace != project.NamespaceOf(f))
            .Select(f => $"{folder}/{f.Path}: {f.Namespace}"));
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Lines_AreNotTooLong(string folder)
    {
        var found = SourceProject.Sources(Path.Combine(Repository.Root, folder)).SelectMany(f => File.ReadLines(f)
            .Select((line, i) => (line.Length, Said: $"{Path.GetRelativePath(Repository.Root, f)}:{i + 1} has {line.Length} characters"))
            .Where(l => l.Length > Longest)).Select(l => l.Said);

        Holds(found);
    }

    /// <summary>Fails with every fault in full.</summary>
    private static void Holds(IEnumerable<string> faults)
    {
        var all = faults.ToList();
        Assert.True(all.Count == 0, string.Join('\n', all));
    }

    private static SourceProject Read(string folder) => SourceProject.Read(Path.Combine(Repository.Root, folder));

    private static IEnumerable<string> Below(string folder) =>
        Directory.EnumerateDirectories(Path.Combine(Repository.Root, folder)).Where(d => Directory.EnumerateFiles(d, "*.csproj").Any())
            .Order(StringComparer.Ordinal);
}
