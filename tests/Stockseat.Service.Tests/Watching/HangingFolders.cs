using Stockseat.Fixtures.Revisions;
using Stockseat.Service.Watching;

namespace Stockseat.Service.Tests.Watching;

/// <summary>The folders on the disk, one of which may hang like a share whose server is away.</summary>
internal sealed class HangingFolders(string fixtures) : IFolders, IDisposable
{
    private readonly FoldersOnDisk _disk = new(fixtures);
    private readonly ManualResetEventSlim _back = new();
    private volatile string? _hung;
    private int _hanging;
    private int _reads;

    /// <summary>How many threads hang.</summary>
    public int Hanging => Volatile.Read(ref _hanging);

    /// <summary>How often a folder was read.</summary>
    public int Reads => Volatile.Read(ref _reads);

    public void Hang(string fixture) => _hung = fixture;

    public void Return()
    {
        _hung = null;
        _back.Set();
    }

    public IReadOnlyList<string> Names() => _disk.Names();

    public FolderStamp? Stamp(string fixture)
    {
        Meet(fixture);
        return _disk.Stamp(fixture);
    }

    public FixtureFolder? Read(string fixture, params ReadOnlySpan<FixtureFolder?> known)
    {
        Interlocked.Increment(ref _reads);
        Meet(fixture);
        return _disk.Read(fixture, known);
    }

    public void Dispose() => Return();

    private void Meet(string fixture)
    {
        if (fixture == _hung)
        {
            Interlocked.Increment(ref _hanging);
            _back.Wait();
            Interlocked.Decrement(ref _hanging);
        }
    }
}
