
namespace Stockseat.EndToEnd.Support;

/// <summary>A throw-away copy of the demo's configuration, with a data folder beside it.</summary>
internal sealed class Cell : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("stockseat-e2e-");

    public Cell()
    {
        var source = Path.Combine(Repository.Root, "config");
        foreach (var file in Directory.EnumerateFiles(source, "*", SearchOption.AllDirectories))
        {
            Write(Path.Combine("config", Path.GetRelativePath(source, file)), File.ReadAllText(file));
        }

        // Tests ask faster than a client may unless its rate is stated.
        var text = File.ReadAllText(Config);
        const string Form = "\"Form\": \"named\"";
        Assert.Contains(Form, text, StringComparison.Ordinal);
        Write("config/stockseat.json", text.Replace(Form, $"{Form}, \"Rate\": 1000000", StringComparison.Ordinal));
    }

    public string Folder => _folder.FullName;

    public string Config => Path.Combine(Folder, "config", "stockseat.json");

    public string Fixtures => Path.Combine(Folder, "config", "fixtures");

    public string Data => Path.Combine(Folder, "data");

    public string Write(string file, string text)
    {
        var path = Path.Combine(Folder, file);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        File.WriteAllText(path, text);
        return path;
    }

    /// <summary>Publishes a revision that differs from another one in the given texts.</summary>
    public void Publish(string fixture, int from, int number, params (string Old, string New)[] edits)
    {
        var text = File.ReadAllText(Path.Combine(Folder, "config", "fixtures", fixture, $"r{from:0000}.json"));
        foreach (var (old, @new) in edits.Prepend(($"\"revision\": {from}", $"\"revision\": {number}")))
        {
            Assert.Contains(old, text, StringComparison.Ordinal);
            text = text.Replace(old, @new, StringComparison.Ordinal);
        }

        Write(Path.Combine("config", "fixtures", fixture, $"r{number:0000}.json"), text);
    }

    public void Dispose() => _folder.Delete(recursive: true);
}
