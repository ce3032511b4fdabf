using Microsoft.Data.Sqlite;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;
using Stockseat.Ledger.Seals;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Writing;

/// <summary>
/// The one writer of the ledger: a thread that takes everything that came while the last commit was syncing, decides it in that order, writes it, commits, and
/// only then releases the answers. It waits for nothing else.
/// </summary>
public sealed class LedgerWriter : IDisposable
{
    // Any thread may use these; of the rolls only the event. Until the writer's thread has ended, only that thread uses the recovery.
    private readonly PendingQueue _queue;
    private readonly Doubts _doubts;
    private readonly Arrivals _arrivals;
    private readonly RollTurn _rolls;
    private readonly Availability _available;
    private readonly CommittedState _committed;
    private readonly Recovery _recovery;
    private readonly Thread _thread;
    private readonly TaskCompletionSource<Exception?> _ended = new(TaskCreationOptions.RunContinuationsAsynchronously);

    private LedgerWriter(string folder, TimeProvider time, SealPolicy? seals, long? rollAt, long? snapshotEvery, bool forService)
    {
        _arrivals = new(time);
        _doubts = new(_arrivals);
        _queue = new(_doubts);
        (_rolls, _recovery) = (new(folder, new(rollAt), time), new(folder, time, seals is not null, snapshotEvery is not null, forService));
        (var session, NotOpened) = _recovery.Begin(rethrow: !forService);
        _committed = new(seals?.Key.Public.Fingerprint, session);
        _available = new(begun: !forService, lost: NotOpened is not null);
        var (clock, sealing) = (new StepClock(time, session?.LastAt), new Sealing(seals, time, _queue.Wake));
        var loop = new WriterLoop(
            (_queue, _doubts, _available, _committed, sealing), _rolls, _recovery,
            new(clock, sealing, _doubts, _arrivals, e => DecisionFailed?.Invoke(e)), clock, session, snapshotEvery ?? 0, time,
            new(() => FixturesChanged?.Invoke(), (asks, took) => Committed?.Invoke(asks, took)));
        _thread = new(() => _ended.SetResult(loop.Run())) { Name = "ledger writer", IsBackground = true };
        _thread.Start();
    }

    /// <summary>Called when the ledger becomes writable or stops being writable, with the cause.</summary>
    public event Action<bool, Exception?>? WritableChanged
    {
        add => _available.Changed += value;
        remove => _available.Changed -= value;
    }

    /// <summary>
    /// Called on the writer's thread when a fixture may have begun or stopped answering: after an adoption, a hold, a release, a missed recheck or a change of
    /// a folder.
    /// </summary>
    public event Action? FixturesChanged;

    /// <summary>Called on the writer's thread after each commit: how many asks it had, and how long deciding, writing and syncing took.</summary>
    public event Action<int, TimeSpan>? Committed;

    /// <summary>Called on the writer's thread with the reason why a ledger that should roll over is continued.</summary>
    public event Action<string>? RollPutOff
    {
        add => _rolls.PutOff += value;
        remove => _rolls.PutOff -= value;
    }

    /// <summary>Called when deciding one ask failed, which is a bug. The others are decided.</summary>
    public event Action<Exception>? DecisionFailed;

    /// <summary>The situation after the last committed entry.</summary>
    public Situation Situation => _committed.Situation;

    /// <summary>How many asks are waiting for the writer's thread.</summary>
    public int Waiting => _queue.Count;

    /// <summary>The last committed serial.</summary>
    public long Serial => _committed.Serial;

    /// <summary>A task that ends at the next commit after it was taken. Take it before reading, so that no commit is missed.</summary>
    public Task NextCommit => _committed.NextCommit;

    /// <summary>Whether the ledger can be written now, and has the service's first entries.</summary>
    public bool Writable => _available.Writable;

    /// <summary>How the ledger is sealed.</summary>
    public SealState Seals => _committed.Seals;

    /// <summary>
    /// The kind of the last entry found at opening. Seals and snapshots do not count: they say nothing about what the service did. Null in a new ledger.
    /// </summary>
    public string? LastKind => _committed.Found.Kind;

    /// <summary>The newest seal found at opening.</summary>
    public NewestSeal FoundSeal => _committed.Found.Seal;

    /// <summary>Why the ledger could not be opened at first; null when it could.</summary>
    public Exception? NotOpened { get; }

    /// <summary>Ends when the writer ends: with null after a stop, otherwise with a failure that can't be recovered from.</summary>
    public Task<Exception?> Ended => _ended.Task;

    /// <summary>Opens the ledger of a folder and starts the writer's thread.</summary>
    /// <param name="folder">The data folder.</param>
    /// <param name="time">The clock and its counter.</param>
    /// <param name="seals">How it is sealed; null: it is not.</param>
    /// <param name="rollAt">The size in bytes at which the ledger rolls over; null: only when somebody asks.</param>
    /// <param name="snapshotEvery">After how many entries a snapshot is written; one is written before a stop too. Null: no snapshots.</param>
    /// <param name="forService">Whether a service uses it: then it locks the folder, keeps trying when the disk is full or fails, and refuses every ask until
    /// the service's first entries are written.</param>
    public static LedgerWriter Open(string folder, TimeProvider time, SealPolicy? seals = null,
        long? rollAt = null, long? snapshotEvery = null, bool forService = false) =>
        new(folder, time, seals, rollAt, snapshotEvery, forService);

    /// <summary>Decides an ask and writes its entry. The task ends when the entry is on the disk, or when the ask is refused without an entry.</summary>
    public Task<AppendOutcome> Append(Ask ask) => _queue.Add(new(ask, null, null) { Came = _arrivals.Now });

    /// <summary>Takes note of a push that was refused before it came here: until a newer one is decided, no measurement of its fixture is used.</summary>
    public void Doubt(Ask push, Refusal refusal)
    {
        _doubts.Add(push, refusal);
        _queue.Wake();
    }

    /// <summary>Writes the service's own entries, made from the situation; the outcome is that of the last of them.</summary>
    /// <param name="make">Makes the entries.</param>
    /// <param name="folders">The fixtures' folders as they were just read; null: unchanged.</param>
    /// <param name="isStart">Whether they are the service's first entries. When refused, they may be tried again; nothing else is decided before they are on
    /// the disk.</param>
    public Task<AppendOutcome> Append(Func<Situation, IEnumerable<EntryBody>> make, IReadOnlyList<FixtureFolder>? folders = null, bool isStart = false) =>
        _queue.Add(new(null, make, folders is null ? null : s => s.WithFolders(folders)) { IsStart = isStart });

    /// <summary>The same with folders that changed.</summary>
    /// <param name="make">Makes the entries.</param>
    /// <param name="changes">The changes, which are applied before the entries are made.</param>
    public Task<AppendOutcome> Append(Func<Situation, IEnumerable<EntryBody>> make, IReadOnlyList<FolderChange> changes) =>
        _queue.Add(new(null, make, s => s.WithChanges(changes)));

    /// <summary>Writes the service's last entries after everything that is waiting, and accepts no more asks.</summary>
    /// <param name="make">Makes the entries.</param>
    public Task<AppendOutcome> AppendLast(Func<Situation, IEnumerable<EntryBody>> make) => _queue.Add(new(null, make, null) { IsLast = true });

    /// <summary>Seals the unsealed entries; without a key, or with nothing unsealed, there is neither an entry nor a refusal.</summary>
    public Task<AppendOutcome> Seal() => _queue.Add(Pending.Seal());

    /// <summary>Writes a snapshot; when nothing came since the last one, there is neither an entry nor a refusal.</summary>
    public Task<AppendOutcome> Snapshot() => _queue.Add(Pending.Snapshot());

    /// <summary>Ends when the writer's thread next comes back for its queue: a proof that the thread is running, whether or not it can write.</summary>
    public Task NextTurn() => _queue.NextTurn();

    /// <summary>Accepts nothing more, writes what is waiting, seals, and closes the ledger.</summary>
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
}
