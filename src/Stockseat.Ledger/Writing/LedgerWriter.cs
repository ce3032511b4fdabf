using Microsoft.Data.Sqlite;
using Stockseat.Answers.Deciding;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Records;
using Stockseat.Fixtures.Revisions;
using Stockseat.Ledger.Rolling;
using Stockseat.Ledger.Seals;

namespace Stockseat.Ledger.Writing;

/// <summary>
/// The one writer of the ledger: a thread that takes all that queued while the last commit was syncing, decides it in that order,
/// writes it, commits, and only then lets the answers go. It waits for nothing else.
/// </summary>
public sealed class LedgerWriter : IDisposable
{
    /// <summary>How many asks may wait. More are refused: an answer that comes too late is worth nothing.</summary>
    public const int QueueLength = 8192;

    /// <summary>How long a ledger that nobody asks anything of may be without its files unseen.</summary>
    private static readonly TimeSpan LookAfter = TimeSpan.FromSeconds(1);

    private static readonly Refusal Unavailable = Refusal.Of(Reason.LedgerUnavailable, "the ledger can't be written, so nothing is answered");

    private readonly PendingQueue _queue = new();
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
    private bool _begun;

    private LedgerWriter(string folder, TimeProvider time, SealPolicy? seals, long? rollAt, bool forService)
    {
        (_rolls, _recovery) = (new(folder, new(rollAt), time), new(folder, time, seals is not null, forService));
        (_session, NotOpened) = _recovery.Begin(rethrow: !forService);
        (_clock, _sealing, _standing) = (new(time, _session?.LastAt), new(seals, time, _queue.Wake), new(seals?.Key.Public.Fingerprint, _session));
        (_decider, _between) = (new(_clock, _sealing, e => DecisionFailed?.Invoke(e)), new(_rolls, _recovery, _standing, _clock));
        (_begun, _available) = (!forService, new(writable: !forService, lost: NotOpened is not null));
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
    public Task<AppendOutcome> Append(Ask ask) => _queue.Add(new(ask, null, null));

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
        _queue.Dispose();
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
                _queue.Take(batch, _session is null ? Recovery.RetryAfter : LookAfter);
                var idle = batch.Count == 0;
                if (_session is null)
                {
                    Recover();
                }

                foreach (var part in BatchParts.Of(batch, _begun))
                {
                    Write(part);
                }

                batch.Clear();

                Tidy(idle);
                if (_begun && _session is { } session && _sealing.IsDue(session.Unsealed))
                {
                    Write([Pending.Seal()]); // In its own turn: no answer of the batch waited for the signature.
                }
            }

            SealLast();
        }
        catch (Exception e)
        {
            fatal = e;
            _available.End();
            _queue.Complete();
            batch.AddRange(_queue.Rest());
            batch.FindAll(p => !p.Task.IsCompleted).ForEach(p => p.End(AppendOutcome.Of(Unavailable)));
        }

        _sealing.Dispose();
        _session?.Dispose();
        _ended.SetResult(fatal);
    }

    /// <summary>The stop too is sealed.</summary>
    private void SealLast()
    {
        if (_begun && _sealing.Key is not null && _session is { Unsealed: > 0 })
        {
            Write([Pending.Seal()]);
            _ = _session ?? throw new IOException("the ledger's last seal can't be written; what came after the one before is unsealed");
        }
    }

    private void Write(List<Pending> batch)
    {
        if (_session is not { } session || !(_begun || batch[0].IsStart))
        {
            batch.ForEach(p => p.End(AppendOutcome.Of(Unavailable)));
            return;
        }

        try
        {
            if (batch is [{ Ask: RollAsk { Denied: null } } roll] && _rolls.Refuse(session) is { } refusal)
            {
                roll.End(AppendOutcome.Of(refusal)); // Once the ledger has ended, there is no way back.
                return;
            }

            _decider.Write(session, batch);
        }
        catch (Exception e) when (e is SqliteException or IOException)
        {
            Lose(e);
            batch.ForEach(p => p.End(AppendOutcome.Of(Unavailable)));
            return;
        }

        _clock.Keep();
        _sealing.Wrote(session.Head.Serial);
        _standing.Publish(session);
        if (batch[0] is { IsStart: true, Outcome.Refusal: null })
        {
            Serve();
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
            if (_begun && _session is { } session)
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
        if (_begun)
        {
            FixturesChanged?.Invoke();
            Serve();
        }
        else
        {
            _standing.Find(session);
        }
    }

    private void Serve()
    {
        _begun = true;
        _available.Serve();
    }
}
