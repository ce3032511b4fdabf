using System.Globalization;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Service.Watching;

/// <summary>
/// Looks at folders with a time limit: a file system that hangs, such as a share whose server is away, keeps its reader inside the operating system
/// indefinitely, and nothing can end that. So each look has a thread of its own, which may be left there, and no folder gets a second one meanwhile.
/// </summary>
/// <param name="folders">Where they are.</param>
/// <param name="intervals">How long a look may take.</param>
/// <param name="time">The clock whose counter measures it.</param>
public sealed class BoundedFolders(IFolders folders, WatchIntervals intervals, TimeProvider time)
{
    /// <summary>The place of a look at the folder of all fixtures: no fixture has such a name.</summary>
    private const string All = "/";

    private readonly Lock _lock = new();
    private readonly Dictionary<string, (Task Look, long Since)> _underWay = new(StringComparer.Ordinal);

    /// <summary>Begins a look, unless one at this place is under way: then null.</summary>
    /// <param name="place">A fixture's name, or another word for the place.</param>
    /// <param name="look">The look.</param>
    public Task<T>? TryBegin<T>(string place, Func<IFolders, T> look)
    {
        var ends = new TaskCompletionSource<T>(TaskCreationOptions.RunContinuationsAsynchronously);
        lock (_lock)
        {
            if (!_underWay.TryAdd(place, (ends.Task, time.GetTimestamp())))
            {
                return null;
            }
        }

        try
        {
            new Thread(() => Run(place, look, ends)) { IsBackground = true, Name = "folder look" }.Start();
        }
        catch
        {
            Forget(place); // There was no memory for a thread: the next look tries again.
            throw;
        }

        return ends.Task;
    }

    /// <summary>Whether a look at this place has been under way for longer than the limit.</summary>
    public bool IsHung(string place)
    {
        lock (_lock)
        {
            return _underWay.TryGetValue(place, out var look) && time.GetElapsedTime(look.Since) >= intervals.LongestLook;
        }
    }

    /// <summary>Waits a moment for a look: most are over by then. A longer look is asked for again later.</summary>
    public async Task Moment(Task look, CancellationToken stop)
    {
        if (!look.IsCompleted)
        {
            using var over = CancellationTokenSource.CreateLinkedTokenSource(stop);
            await Task.WhenAny(look, Task.Delay(intervals.Moment, time, over.Token));
            await over.CancelAsync(); // leaves no timer
        }
    }

    /// <summary>The names of the folders that are there.</summary>
    /// <exception cref="TimeoutException">They could not be listed in time.</exception>
    /// <exception cref="IOException">They can't be listed.</exception>
    /// <exception cref="UnauthorizedAccessException">They may not be listed.</exception>
    public Task<IReadOnlyList<string>> Names(CancellationToken stop) => InTime(All, f => f.Names(), stop);

    /// <summary>Reads a complete folder; null when it does not exist. A folder that hangs keeps its known state, and says so.</summary>
    /// <param name="fixture">Its name.</param>
    /// <param name="held">Its known state.</param>
    /// <param name="stop">Ends the wait for it.</param>
    public async Task<FixtureFolder?> Read(string fixture, FixtureFolder? held, CancellationToken stop)
    {
        try
        {
            return await InTime(fixture, f => f.Read(fixture, held), stop);
        }
        catch (TimeoutException)
        {
            return Hung(fixture, held);
        }
    }

    /// <summary>Reads all folders.</summary>
    /// <param name="known">The fixtures that are looked for when the folders can't be listed in time.</param>
    /// <param name="stop">Ends the wait for them.</param>
    /// <returns>The folders; and why they could not be listed, when they could not.</returns>
    public async Task<(IReadOnlyList<FixtureFolder> Folders, string? NotListed)> ReadAll(IEnumerable<string> known, CancellationToken stop)
    {
        var (names, cause) = ((IReadOnlyList<string>)[], (string?)null);
        try
        {
            names = await Names(stop);
        }
        catch (TimeoutException e)
        {
            (names, cause) = ([.. known], e.Message);
        }

        var reads = new List<Task<FixtureFolder?>>();
        foreach (var name in names)
        {
            reads.Add(Read(name, null, stop));
            await Moment(reads[^1], stop);
        }

        return ([.. (await Task.WhenAll(reads)).OfType<FixtureFolder>()], cause);
    }

    /// <summary>A folder whose look hangs: what was read before stays in use.</summary>
    public FixtureFolder Hung(string fixture, FixtureFolder? held) => (held ?? new(fixture, [], [])) with
    {
        NotRead = $"the folder of {fixture} could not be read within {Limit}; what was read before stays in use; check the disk or the share that it is on",
    };

    private string Limit => intervals.LongestLook.TotalSeconds.ToString("0.## s", CultureInfo.InvariantCulture);

    /// <summary>Also waits for the look under way: what it reads may be older than the present question.</summary>
    private async Task<T> InTime<T>(string place, Func<IFolders, T> look, CancellationToken stop)
    {
        using var late = new CancellationTokenSource(intervals.LongestLook, time);
        using var over = CancellationTokenSource.CreateLinkedTokenSource(late.Token, stop);
        try
        {
            while (!IsHung(place) && !over.IsCancellationRequested)
            {
                if (TryBegin(place, look) is { } begun)
                {
                    return await begun.WaitAsync(over.Token);
                }

                await ((Task)UnderWay(place).WaitAsync(over.Token)).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            }
        }
        catch (OperationCanceledException) when (over.IsCancellationRequested)
        {
        }

        stop.ThrowIfCancellationRequested();
        throw new TimeoutException($"the system did not answer within {Limit}");
    }

    private Task UnderWay(string place)
    {
        lock (_lock)
        {
            return _underWay.TryGetValue(place, out var look) ? look.Look : Task.CompletedTask;
        }
    }

    private void Run<T>(string place, Func<IFolders, T> look, TaskCompletionSource<T> ends)
    {
        try
        {
            var seen = look(folders);
            Forget(place);
            ends.SetResult(seen);
        }
        catch (Exception e)
        {
            Forget(place);
            ends.SetException(e);
        }
    }

    private void Forget(string place)
    {
        lock (_lock)
        {
            _underWay.Remove(place);
        }
    }
}
