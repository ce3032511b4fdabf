using Stockseat.Reliability.Install.Live;

[assembly: AssemblyFixture(typeof(MadePackage))]

namespace Stockseat.Reliability.Install.Live;

/// <summary>The package, made once for all tests that need one: packing is a quarter of a minute's work for a processor.</summary>
public sealed class MadePackage : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("stockseat-made-");
    private readonly Lazy<Task<string>> _made;

    public MadePackage() => _made = new(() => Package.Make(_folder.FullName));

    public void Dispose() => _folder.Delete(recursive: true);

    /// <summary>Puts it into a folder.</summary>
    internal async Task<string> In(string folder, string? name = null)
    {
        var made = await _made.Value;
        var copy = Path.Combine(folder, name ?? Path.GetFileName(made));
        File.Copy(made, copy);
        return copy;
    }
}
