using System.Reflection.Metadata;
using System.Reflection.PortableExecutable;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>Dependencies run one way; they are read from the assemblies that were built.</summary>
public class ArchitectureTests
{
    private static readonly string[] LeftToRight =
        [
            "Stockseat.Seating", "Stockseat.Fixtures", "Stockseat.Answers", "Stockseat.Ledger", "Stockseat.Audit", "Stockseat.Plant", "Stockseat.Sheets",
            "Stockseat.Service", "stockseat",
        ];

    private static readonly string[] NotPure =
    [
        "System.IO.FileSystem", "System.IO.Pipes", "System.Net", "System.Data", "System.Diagnostics.Process", "System.Console",
        "Microsoft.Data", "Microsoft.Extensions", "Microsoft.AspNetCore", "SQLitePCLRaw", "Grpc", "Serilog", "System.Threading.Channels",
    ];

    // These types are in System.Runtime, so no assembly's name shows that they are used.
    private static readonly string[] NotPureTypes =
        [
            "System.IO.File", "System.IO.FileInfo", "System.IO.FileStream", "System.IO.Directory", "System.IO.DirectoryInfo", "System.Threading.Thread",
            "System.Threading.Tasks.Task", "System.TimeProvider", "System.Console",
        ];

    public static TheoryData<string> Assemblies => [.. LeftToRight];

    [Theory]
    [MemberData(nameof(Assemblies))]
    public void Assembly_ReferencesOnlyThoseBeforeItInTheOrder(string name)
    {
        var own = References(name).Where(r => r.StartsWith("Stockseat", StringComparison.OrdinalIgnoreCase));

        Assert.Empty(own.Except(LeftToRight.TakeWhile(n => n != name)));
    }

    [Fact]
    public void EveryAssemblyOfOurs_IsInTheOrder()
    {
        var built = Directory.EnumerateFiles(Repository.ProgramFolder, "*.dll").Select(f => Path.GetFileNameWithoutExtension(f))
            .Where(n => n.StartsWith("Stockseat", StringComparison.OrdinalIgnoreCase));

        Assert.Equal(LeftToRight.Order(StringComparer.Ordinal), built.Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData("Stockseat.Seating")]
    [InlineData("Stockseat.Answers")]
    [InlineData("Stockseat.Sheets")]
    public void PureAssembly_ReachesNothingOutside(string name)
    {
        Assert.DoesNotContain(References(name), r => NotPure.Any(n => r == n || r.StartsWith(n + ".", StringComparison.Ordinal)));
        Assert.Empty(Types(name).Intersect(NotPureTypes));
    }

    private static List<string> References(string name) =>
        Read(name, reader => reader.AssemblyReferences.Select(h => reader.GetString(reader.GetAssemblyReference(h).Name)));

    private static List<string> Types(string name) => Read(name, reader => reader.TypeReferences.Select(reader.GetTypeReference)
        .Select(t => $"{reader.GetString(t.Namespace)}.{reader.GetString(t.Name)}"));

    private static List<string> Read(string name, Func<MetadataReader, IEnumerable<string>> read)
    {
        using var file = new PEReader(File.OpenRead(Path.Combine(Repository.ProgramFolder, name + ".dll")));
        return [.. read(file.GetMetadataReader())];
    }
}
