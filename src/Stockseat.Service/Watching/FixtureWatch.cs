using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;
using Stockseat.Ledger.Writing;

namespace Stockseat.Service.Watching;

/// <summary>
/// Notices revision files while the service runs. Settled changes go into the situation through the ledger's writer, with the entries that a start would
/// write for them; nothing here puts a revision into force that somebody has to adopt.
/// </summary>
public sealed class FixtureWatch : IHostedService, IDisposable
{
    private readonly LedgerWriter _writer;
    private readonly FixtureSettings _settings;
    private readonly WatchIntervals _intervals;
    private readonly TimeProvider _time;
    private readonly ILogger _logger;
    private readonly BoundedFolders _folders;
    private readonly FolderLooks _looks;
    private readonly FolderHints _hints;
    private readonly CancellationTokenSource _stop = new();
    private Task _running = Task.CompletedTask;
    private long _polled;
    private bool _listed = true;
    private bool _failed;
    private (TimeSpan Wait, long Since)? _refused;

    public FixtureWatch(
        LedgerWriter writer, FixtureSettings settings, BoundedFolders folders, WatchIntervals intervals, TimeProvider time, ILogger<FixtureWatch> logger)
    {
        (_writer, _settings, _intervals, _time, _logger) = (writer, settings, intervals, time, logger);
        (_folders, _looks, _hints) = (folders, new(folders, intervals, time), new(settings.Folder, logger));
    }

    /// <inheritdoc/>
    public Task StartAsync(CancellationToken cancellationToken)
    {
        _polled = _time.GetTimestamp();
        _running = Task.Run(() => Run(_stop.Token), CancellationToken.None);
        return Task.CompletedTask;
    }

    /// <summary>A look under way ends by itself, or with the process: nothing waits for a share that hangs.</summary>
    public async Task StopAsync(CancellationToken cancellationToken)
    {
        await _stop.CancelAsync();
        await _running.WaitAsync(cancellationToken).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _hints.Dispose();
        _stop.Dispose();
    }

    private async Task Run(CancellationToken stop)
    {
        while (!stop.IsCancellationRequested)
        {
            try
            {
                await Listen(stop);
                await Wait(stop);
                await Look(stop);
                _failed = false;
            }
            catch (OperationCanceledException) when (stop.IsCancellationRequested)
            {
                return;
            }
            catch (Exception e)
            {
                if (!_failed)
                {
                    Log.LookFailed(_logger, e); // once for several in a row
                }

                _failed = true;
            }
        }
    }

    /// <summary>Asking the system for hints may hang on a share, so it is done as a look like any other.</summary>
    private async Task Listen(CancellationToken stop)
    {
        if (_hints.AreWanted && _folders.TryBegin("/hints", _ => _hints.Listen()) is { } listening)
        {
            await _folders.Moment(listening, stop);
        }
    }

    /// <summary>Waits at least as long as a folder takes to settle; then until there is a hint, something to look at again, or a poll.</summary>
    private async Task Wait(CancellationToken stop)
    {
        await Task.Delay(_intervals.Settled, _time, stop);
        if ((_looks.Unsettled.Count > 0 || _looks.IsLate) && _refused is null)
        {
            return;
        }

        var left = _intervals.Poll - _time.GetElapsedTime(_polled);
        if (left > TimeSpan.Zero)
        {
            using var over = CancellationTokenSource.CreateLinkedTokenSource(stop);
            await Task.WhenAny(_hints.Told, Task.Delay(left, _time, over.Token));
            await over.CancelAsync(); // leaves no timer
            stop.ThrowIfCancellationRequested();
        }
    }

    private async Task Look(CancellationToken stop)
    {
        var (situation, hinted) = (_writer.Situation, _hints.Take());
        var poll = _time.GetElapsedTime(_polled) >= _intervals.Poll;
        IReadOnlyList<FolderChange>? changes = null;
        if (poll)
        {
            _polled = _time.GetTimestamp();
            changes = await LookAtAll(situation, stop);
        }

        if (hinted.Count > 0 || !poll)
        {
            changes = [.. changes ?? [], .. await _looks.LookAt(situation, hinted, stop)];
        }

        changes = [.. (changes ?? []).DistinctBy(c => c.Fixture)];
        if (_refused is { } refused && _time.GetElapsedTime(refused.Since) < refused.Wait)
        {
            return;
        }

        if (changes.Count > 0 || (poll && _looks.Unsettled.Count == 0 && Adopting.OfFolders(situation, _settings.FirstAdoption).Any()))
        {
            await Take(situation, changes, stop);
        }
    }

    private async Task<IReadOnlyList<FolderChange>> LookAtAll(Situation situation, CancellationToken stop)
    {
        IReadOnlyList<string>? names = null;
        string? cause = null;
        try
        {
            names = await _folders.Names(stop);
        }
        catch (TimeoutException e)
        {
            (names, cause) = ([], e.Message); // The known fixtures may be in another place.
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            cause = e.Message;
        }

        if (_listed != cause is null)
        {
            _listed = cause is null;
            if (cause is null)
            {
                Log.ListedAgain(_logger, _settings.Folder);
            }
            else
            {
                Log.NotListed(_logger, _settings.Folder, cause);
            }
        }

        return names is null ? [] : await _looks.LookAtAll(situation, names, stop);
    }

    private async Task Take(Situation situation, IReadOnlyList<FolderChange> changes, CancellationToken stop)
    {
        foreach (var change in changes)
        {
            change.Is?.Prepare(situation.Find(change.Fixture)?.InForce?.Number);
        }

        List<EntryBody> entries = [];
        var written = await _writer.Append(s => entries = [.. Adopting.OfFolders(s, _settings.FirstAdoption)], changes).WaitAsync(stop);
        if (written.Refusal is { } refusal)
        {
            if (_refused is null)
            {
                Log.NotTaken(_logger, refusal.Info.Name, refusal.Text);
            }

            var wait = _refused is { } before ? before.Wait * 2 : _intervals.Poll;
            _refused = (wait < _intervals.LongestRetry ? wait : _intervals.LongestRetry, _time.GetTimestamp());
            return;
        }

        _refused = null;
        var after = _writer.Situation;
        foreach (var change in changes)
        {
            FolderNews.Tell(_logger, change.Fixture, situation.Find(change.Fixture), after.Find(change.Fixture));
        }

        foreach (var adopted in entries.OfType<RevisionAdoptedBody>())
        {
            Log.Adopted(_logger, adopted.Fixture!, adopted.Revision!.Value);
        }
    }
}
