using Stockseat.Service.Configuration;

namespace Stockseat.Service.Tests.Configuration;

/// <summary>Whatever is found in place of the configuration, nobody is kept waiting, and the report is short.</summary>
public sealed class UnusualFileTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("stockseat-unusual-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task A_pipe_in_place_of_the_file_does_not_block()
    {
        var path = Path.Combine(_folder, "pipe.json");
        await NamedPipe.Make(path);
        var reading = await Task.Run(() => SettingsReader.Read(new(path), new Dictionary<string, string>())).Within("the reading of a pipe");
        Assert.StartsWith($"{path}: is not a regular file", Assert.Single(reading.Faults), StringComparison.Ordinal);
    }

    [Fact]
    public void Of_many_faults_the_first_are_listed_and_the_rest_counted()
    {
        var faults = SettingsReader.Read(new(Write($"{{ {string.Join(", ", Enumerable.Range(0, 1284).Select(i => $"\"k{i}\": 1"))} }}")),
            new Dictionary<string, string>()).Faults;
        Assert.Equal(51, faults.Count);
        Assert.EndsWith(": and 1234 more faults", faults[50], StringComparison.Ordinal);
    }

    [Fact]
    public void An_endless_file_is_not_read()
    {
        var path = Path.Combine(_folder, "large.json");
        using (var large = File.Create(path))
        {
            large.SetLength((16 << 20) + 1);
        }

        Assert.StartsWith($"{path}: has 16777217 bytes; at most 16777216 are allowed",
            Assert.Single(SettingsReader.Read(new(path), new Dictionary<string, string>()).Faults), StringComparison.Ordinal);
    }

    private string Write(string text)
    {
        var file = Path.Combine(_folder, "stockseat.json");
        File.WriteAllText(file, text);
        return file;
    }
}
