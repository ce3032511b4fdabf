using Microsoft.Extensions.Logging;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Service.Watching;

/// <summary>
/// What the operating system reports about changes in the fixtures' folders: only a hint to look soon. It may report nothing (on a share), too much, or lose
/// events; the polls find every change.
/// </summary>
public sealed class FolderHints(string fixtures, ILogger logger) : IDisposable
{
    private readonly Lock _lock = new();
    private readonly HashSet<string> _names = new(StringComparer.Ordinal);
    private TaskCompletionSource _told = NewSignal();
    private FileSystemWatcher? _watcher;
    private bool _failed;
    private bool _disposed;

    /// <summary>Ends when there is a hint.</summary>
    public Task Told
    {
        get
        {
            lock (_lock)
            {
                return _told.Task;
            }
        }
    }

    /// <summary>Whether it does not listen yet but could.</summary>
    public bool AreWanted
    {
        get
        {
            lock (_lock)
            {
                return _watcher is null && !_failed && !_disposed;
            }
        }
    }

    /// <summary>Begins to listen, unless it listens already or has failed; the folder of all fixtures may be made later.</summary>
    /// <returns>Whether it listens now.</returns>
    public bool Listen()
    {
        if (!AreWanted || !Directory.Exists(fixtures))
        {
            return false;
        }

        FileSystemWatcher? watcher = null;
        try
        {
            watcher = new(fixtures) { IncludeSubdirectories = true };
            watcher.NotifyFilter = NotifyFilters.FileName | NotifyFilters.DirectoryName | NotifyFilters.LastWrite | NotifyFilters.Size;
            watcher.Created += (_, e) => Tell(e.Name);
            watcher.Changed += (_, e) => Tell(e.Name);
            watcher.Deleted += (_, e) => Tell(e.Name);
            watcher.Renamed += (_, e) => Tell(e.OldName, e.Name);
            watcher.Error += (_, e) => Fail(e.GetException());
            watcher.EnableRaisingEvents = true; // This may hang, so nothing else uses it before.
        }
        catch (Exception e) when (e is IOException or ArgumentException or UnauthorizedAccessException or PlatformNotSupportedException)
        {
            watcher?.Dispose();
            Fail(e);
            return false;
        }

        lock (_lock)
        {
            if (!_disposed)
            {
                _watcher = watcher;
                return true;
            }
        }

        watcher.Dispose();
        return false;
    }

    /// <summary>The fixtures with hints since the last call.</summary>
    public IReadOnlyList<string> Take()
    {
        lock (_lock)
        {
            if (_told.Task.IsCompleted)
            {
                _told = NewSignal();
            }

            string[] names = [.. _names];
            _names.Clear();
            return names;
        }
    }

    /// <summary>Takes a path of the system below the folder of all fixtures.</summary>
    public void Tell(params ReadOnlySpan<string?> paths)
    {
        lock (_lock)
        {
            foreach (var path in paths)
            {
                if (path?.Split('/', '\\')[0] is { } name && RevisionReader.IsName(name))
                {
                    _names.Add(name);
                    _told.TrySetResult();
                }
            }
        }
    }

    /// <summary>Some events were lost: the next poll finds those changes. Any other error ends the hints.</summary>
    public void Fail(Exception cause)
    {
        lock (_lock)
        {
            if (cause is InternalBufferOverflowException || _failed || _disposed)
            {
                return;
            }

            _failed = true;
        }

        Log.NoHints(logger, fixtures, cause.Message);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        lock (_lock)
        {
            _disposed = true;
        }

        _watcher?.Dispose();
    }

    private static TaskCompletionSource NewSignal() => new(TaskCreationOptions.RunContinuationsAsynchronously);
}
