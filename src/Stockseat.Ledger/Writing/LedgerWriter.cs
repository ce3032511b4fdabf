using Microsoft.Data.Sqlite;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;
using Stockseat.Ledger.Seals;
using Stockseat.Ledger.Sessions;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Writing;

/// <summary>
/// The one writer of the ledger: a thread that takes all that queued while the last commit was syncing, decides it in that order,
/// writes it, commits, and only then lets the answers go. It waits for nothing else.
/// </summary>
public sealed class LedgerWriter : IDisposable
{
    private readonly PendingQueue _queue;
    private readonly Doubts _doubts;
    private readonly Arrivals _arrivals;
    private readonly RollTurn _rolls;
    private readonly Between _between;
    private readonly Availability _available;
    private readonly Decider _decider;
    private readonly Recovery _recovery;
    private readonly StepClock _clock;
    private readonly Sealing _sealing;
    private readonly Standing _standing;
    private readonly Thread _thread;
    private readonly TaskCompletionSource<Exception?> _ended = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private LedgerSession? _session;

    private LedgerWriter(string folder, TimeProvider time, SealPolicy? seals, long? rollAt, bool forService)
    {
        _arrivals = new(time);
        _doubts = new(_arrivals);
        _queue = new(_doubts);
        (_rolls, _recovery) = (new(folder, new(rollAt), time), new(folder, time, seals is not null, forService));
        (_session, NotOpened) = _recovery.Begin(rethrow: !forService);
        (_clock, _sealing, _standing) = (new(time, _session?.LastAt), new(seals, time, _queue.Wake), new(seals?.Key.Public.Fingerprint, _session));
        _decider = new(_clock, _sealing, _doubts, _arrivals, e => DecisionFailed?.Invoke(e));
        _between = new(_rolls, _recovery, _standing, _clock);
        _available = new(begun: !forService, lost: NotOpened is not null);
        _thread = new(Run) { Name = "ledger writer", IsBackground = true };
        _thread.Start();
    }

    /// <summary>Told when the ledger becomes writable or stops being so, with the cause.</summary>
    public event Action<bool, Exception?>? WritableChanged
    {
        add => _available.Changed += value;
        remove => _available.Changed -= value;
    }

    /// <summary>Told on the writer's thread when whether a fixture answers may have changed: by an adoption, a hold, a release, a missed recheck or a folder.</summary>
    public event Action? FixturesChanged;

    /// <summary>Told on the writer's thread why a ledger that is to roll over goes on as it is.</summary>
    public event Action<string>? RollPutOff
    {
        add => _rolls.PutOff += value;
        remove => _rolls.PutOff -= value;
    }

    /// <summary>Told when deciding one ask failed: a bug. The others go on.</summary>
    public event Action<Exception>? DecisionFailed;

    /// <summary>What holds after the last committed entry.</summary>
    public Situation Situation => _standing.Situation;

    /// <summary>The last committed serial.</summary>
    public long Serial => _standing.Serial;

    /// <summary>Ends at the next commit after it was taken. Take it before reading, and nothing is missed.</summary>
    public Task NextCommit => _standing.NextCommit;

    /// <summary>Whether the ledger can be written now, and the service's first entries are in it.</summary>
    public bool Writable => _available.Writable;

    /// <summary>How the ledger is sealed.</summary>
    public SealStanding Seals => _standing.Seals;

    /// <summary>The kind of the last entry found at opening that is no seal: one follows a stop in order too. Null in a new ledger.</summary>
    public string? LastKind => _standing.Found.Kind;

    /// <summary>The newest seal found at opening.</summary>
    public NewestSeal FoundSeal => _standing.Found.Seal;

    /// <summary>Why the ledger could not be opened at first; null when it could.</summary>
    public Exception? NotOpened { get; }

    /// <summary>Ends with the writer: with null after a stop, else with what can't be recovered from.</summary>
    public Task<Exception?> Ended => _ended.Task;

    /// <summary>Opens the ledger of a folder and starts writing.</summary>
    /// <param name="folder">The data folder.</param>
    /// <param name="time">Clock and counter.</param>
    /// <param name="seals">How it is sealed; null: not at all.</param>
    /// <param name="rollAt">The size in bytes at which the ledger rolls over; null: never by itself.</param>
    /// <param name="forService">Whether it is the service's: then it has the folder alone, goes on trying when the disk is full or fails, and
    /// refuses all until the service's first entries are written.</param>
    public static LedgerWriter Open(string folder, TimeProvider time, SealPolicy? seals = null, long? rollAt = null, bool forService = false) =>
        new(folder, time, seals, rollAt, forService);

    /// <summary>Decides an ask and writes its entry. The task ends when the entry is on the disk, or the ask is refused without one.</summary>
    public Task<AppendOutcome> Append(Ask ask) => _queue.Add(new(ask, null, null) { Came = _arrivals.Now });

    /// <summary>Told of a push that was refused before it came here: until a newer one is decided, no measurement of its fixture is used.</summary>
    public void Doubt(Ask push, Refusal refusal)
    {
        _doubts.Add(push, refusal);
        _queue.Wake();
    }

    /// <summary>Writes the service's own entries, as what holds asks for; its outcome is the last of them.</summary>
    /// <param name="make">Makes the entries.</param>
    /// <param name="folders">The fixtures' folders as just read; null: as before.</param>
    /// <param name="isStart">Whether they are the service's first. Refused, they may be tried again; nothing else is decided before they are on the disk.</param>
    public Task<AppendOutcome> Append(Func<Situation, IEnumerable<EntryBody>> make, IReadOnlyList<FixtureFolder>? folders = null, bool isStart = false) =>
        _queue.Add(new(null, make, folders is null ? null : s => s.WithFolders(folders)) { IsStart = isStart });

    /// <summary>The same with folders that changed.</summary>
    /// <param name="make">Makes the entries.</param>
    /// <param name="changes">The changes, which hold before the entries are made.</param>
    public Task<AppendOutcome> Append(Func<Situation, IEnumerable<EntryBody>> make, IReadOnlyList<FolderChange> changes) =>
        _queue.Add(new(null, make, s => s.WithChanges(changes)));

    /// <summary>Writes the service's last entries after all that waits, and takes no asks any more.</summary>
    /// <param name="make">Makes the entries.</param>
    public Task<AppendOutcome> AppendLast(Func<Situation, IEnumerable<EntryBody>> make) => _queue.Add(new(null, make, null) { IsLast = true });

    /// <summary>Seals what is unsealed; without a key, or with nothing unsealed, there is neither entry nor refusal.</summary>
    public Task<AppendOutcome> Seal() => _queue.Add(Pending.Seal());

    /// <summary>Ends when the writer's thread next comes back for what is queued: proof that it turns, whether or not it can write.</summary>
    public Task NextTurn() => _queue.NextTurn();

    /// <summary>Takes nothing more, writes what waits, seals, and closes the ledger.</summary>
    public Task<Exception?> Stop()
    {
        _queue.Complete();
        return _ended.Task;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _queue.Complete();
        _thread.Join();
        _recovery.Dispose();
    }

    private void Run()
    {
        Exception? fatal = null;
        var batch = new List<Pending>();
        try
        {
            while (!_queue.IsCompleted)
            {
                // It wakes by itself, to try again, or to look whether its files are still there.
                _queue.Take(batch, _session is null ? Recovery.RetryAfter : Between.LookAfter);
                var idle = batch.Count == 0;
                if (_session is null)
                {
                    Recover();
                }

                foreach (var part in BatchParts.Of(batch, _available.Begun))
                {
                    Write(part);
                }

                batch.Clear();
                Tidy(idle);
                WriteOwn(idle);
            }

            SealLast();
        }
        catch (Exception e)
        {
            fatal = e;
            _available.End();
            _queue.Complete();
            batch.AddRange(_queue.Rest());
            _doubts.Refuse(batch.FindAll(p => !p.Task.IsCompleted));
        }

        _sealing.Dispose();
        _session?.Dispose();
        _ended.SetResult(fatal);
    }

    /// <summary>What nobody asked for, each in its own turn: no answer of a batch waits for it.</summary>
    private void WriteOwn(bool idle)
    {
        if (idle && _available.Begun && _session is { } doubtful && _doubts.Due(doubtful.Situation).Count > 0)
        {
            Write([Pending.Due()]);
        }

        if (_available.Begun && _session is { } session && _sealing.IsDue(session.Unsealed))
        {
            Write([Pending.Seal()]);
        }
    }

    /// <summary>The stop too is sealed.</summary>
    private void SealLast()
    {
        if (_available.Begun && _sealing.Key is not null && _session is { Unsealed: > 0 })
        {
            Write([Pending.Seal()]);
            _ = _session ?? throw new IOException("the ledger's last seal can't be written; what came after the one before is unsealed");
        }
    }

    private void Write(List<Pending> batch)
    {
        if (_session is not { } session || !(_available.Begun || batch[0].IsStart))
        {
            _doubts.Refuse(batch);
            return;
        }

        try
        {
            if (_rolls.Refused(session, batch))
            {
                return;
            }

            _decider.Write(session, batch);
        }
        catch (Exception e) when (e is SqliteException or IOException)
        {
            Lose(e);
            _doubts.Refuse(batch);
            return;
        }

        _clock.Keep();
        _sealing.Wrote(session.Head.Serial);
        _standing.Publish(session);
        if (batch[0] is { IsStart: true, Outcome.Refusal: null })
        {
            _available.Serve();
        }

        if (batch.Exists(p => p.ConcernsFixtures))
        {
            FixturesChanged?.Invoke();
        }

        batch.ForEach(p => p.End(p.Outcome));
    }

    private void Tidy(bool idle)
    {
        try
        {
            if (_available.Begun && _session is { } session)
            {
                _between.Run(session, idle, s => _session = s);
            }
        }
        catch (Exception e) when (e is SqliteException or IOException or UnauthorizedAccessException)
        {
            Lose(e);
        }
    }

    private void Lose(Exception cause)
    {
        _recovery.Lose(_session, cause);
        _session = null;
        _available.Lose(cause);
    }

    private void Recover()
    {
        if (_recovery.Try(_standing.Committed) is not { } session)
        {
            return;
        }

        _clock.Return(session.LastAt);
        _session = session;
        _standing.Take(session);
        if (_available.Begun)
        {
            FixturesChanged?.Invoke();
            _available.Serve();
        }
        else
        {
            _standing.Find(session);
        }
    }
}
