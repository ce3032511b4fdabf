namespace Stockseat.Fixtures.Tests.Support;

/// <summary>A folder of fixtures for one test.</summary>
internal sealed class TemporaryFolder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("stockseat-").FullName;

    public string Write(string file, string text) => Write(file, System.Text.Encoding.UTF8.GetBytes(text));

    public string Write(string file, byte[] bytes)
    {
        var path = System.IO.Path.Combine(Path, file);
        Directory.CreateDirectory(System.IO.Path.GetDirectoryName(path)!);
        File.WriteAllBytes(path, bytes);
        return path;
    }

    /// <summary>The pin bed with another number.</summary>
    public string WritePins(int number, string fixture = "pinbed-1") => Write($"{fixture}/r{number:0000}.json", Pins(number, fixture));

    public static string Pins(int number, string fixture = "pinbed-1", string spacing = "60 mm")
    {
        var text = Repository.Edit(Repository.Text("pinbed-1/r0003.json"), "\"revision\": 3", $"\"revision\": {number}");
        text = Repository.Edit(text, "\"fixture\": \"pinbed-1\"", $"\"fixture\": \"{fixture}\"");
        return Repository.Edit(text, "\"spacing\": \"60 mm\"", $"\"spacing\": \"{spacing}\"");
    }

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
