using Stockseat.Service.Watching;

namespace Stockseat.Service.Tests.Watching;

public sealed class FolderHintsTests : IDisposable
{
    private readonly string _root = Directory.CreateTempSubdirectory("stockseat-hints-").FullName;
    private readonly Lines _log = new();
    private readonly FolderHints _hints;

    public FolderHintsTests() => _hints = new(Path.Combine(_root, "fixtures"), _log);

    public void Dispose()
    {
        _hints.Dispose();
        Directory.Delete(_root, recursive: true);
    }

    [Fact]
    public void A_path_from_the_system_is_a_hint_at_its_fixture_once()
    {
        Assert.False(_hints.Told.IsCompleted);
        _hints.Tell("bed/r0001.json", "bed/r0002.json", @"rack\r0001.json", "rollers", null, "", "Not a name/x", ".git/index");

        Assert.True(_hints.Told.IsCompleted);
        Assert.Equal(["bed", "rack", "rollers"], _hints.Take().Order());
        Assert.Empty(_hints.Take());
        Assert.False(_hints.Told.IsCompleted);
    }

    [Fact]
    public async Task A_file_that_is_written_is_a_hint_at_its_fixture_also_in_a_folder_that_came_later()
    {
        _hints.Listen(); // There is no folder to listen to yet.
        Directory.CreateDirectory(Path.Combine(_root, "fixtures"));
        _hints.Listen();
        Directory.CreateDirectory(Path.Combine(_root, "fixtures", "bed"));
        await _hints.Told.Within("a hint");
        Assert.Equal(["bed"], _hints.Take());
        Assert.Empty(_log.All);
    }

    [Fact]
    public void An_error_that_ends_the_hints_is_reported_once_and_lost_events_do_not_end_them()
    {
        _hints.Fail(new InternalBufferOverflowException());
        Assert.Empty(_log.All);

        _hints.Fail(new IOException("no more watches"));
        _hints.Fail(new IOException("no more watches"));
        Directory.CreateDirectory(Path.Combine(_root, "fixtures"));
        _hints.Listen();
        Assert.Contains("no more watches", Assert.Single(_log.All), StringComparison.Ordinal);
    }
}
