using System.Reflection.PortableExecutable;

namespace Stockseat.EndToEnd;

/// <summary>The ordinary build for Windows, made on any system. Nothing here runs that build.</summary>
public class WindowsBuildTests
{
    private const string Variable = "STOCKSEAT_WINDOWS";

    [Theory]
    [InlineData("stockseat.exe")]
    [InlineData("e_sqlite3.dll")]
    public void Publish_HasTheFilesForWindowsOnly(string name)
    {
        using var reader = new PEReader(File.OpenRead(Path.Combine(Folder(), name)));

        Assert.Equal(Machine.Amd64, reader.PEHeaders.CoffHeader.Machine);
        Assert.Equal(PEMagic.PE32Plus, reader.PEHeaders.PEHeader!.Magic);
        Assert.False(reader.HasMetadata, $"{name} is an assembly");
        Assert.Equal(name.EndsWith(".dll", StringComparison.Ordinal), reader.PEHeaders.IsDll);
    }

    [Fact]
    public void Publish_HasTheAssemblyAndNoRuntime()
    {
        var folder = Folder();
        using var reader = new PEReader(File.OpenRead(Path.Combine(folder, "stockseat.dll")));

        Assert.True(reader.HasMetadata);
        Assert.True(File.Exists(Path.Combine(folder, "stockseat.runtimeconfig.json")));
        Assert.False(File.Exists(Path.Combine(folder, "coreclr.dll")), "the run-time was published too");
    }

    private static string Folder()
    {
        var folder = Environment.GetEnvironmentVariable(Variable);
        Assert.SkipWhen(string.IsNullOrEmpty(folder), $"{Variable} names no published folder: STOCKSEAT_LONG=1 tests/run makes one");
        return folder!;
    }
}
