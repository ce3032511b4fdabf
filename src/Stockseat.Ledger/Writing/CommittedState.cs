using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;
using Stockseat.Ledger.Seals;
using Stockseat.Ledger.Sessions;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Writing;

/// <summary>What every thread may know of the ledger after its last commit. The writer's thread changes it.</summary>
internal sealed class CommittedState
{
    private readonly string? _key;
    private readonly CommitSignal _commits = new();
    private long _serial;
    private volatile Situation _situation = Situation.Empty;
    private volatile SealState _seals;
    private volatile LastFound _found = new(null, default);

    /// <param name="key">The fingerprint of the key that seals the ledger; null: it is not sealed.</param>
    /// <param name="session">The opened ledger; null: it could not be opened.</param>
    public CommittedState(string? key, LedgerSession? session)
    {
        (_key, _seals) = (key, new(key, default, 0));
        if (session is not null)
        {
            Find(session);
            Publish(session);
        }
    }

    public Situation Situation => _situation;

    public long Serial => Interlocked.Read(ref _serial);

    public SealState Seals => _seals;

    public Task NextCommit => _commits.Next;

    /// <summary>The end of the ledger before the service's first entries.</summary>
    public LastFound Found => _found;

    /// <summary>The last committed entry; only for the writer's thread.</summary>
    public Head Committed { get; private set; }

    /// <summary>Sets the ledger that was opened before the service's first entries; it may have entries from an earlier attempt to write them.</summary>
    public void Find(LedgerSession session) => _found = new(session.LastKind, session.NewestSeal);

    public void Publish(LedgerSession session)
    {
        (Committed, _situation, _seals) = (session.Head, session.Situation, new(_key, session.NewestSeal, session.Unsealed));
        Interlocked.Exchange(ref _serial, session.Head.Serial);
        _commits.Came();
    }

    /// <summary>Continues with a session that was opened again, and with the folders as they were last read.</summary>
    public void Take(LedgerSession session)
    {
        session.Situation = session.Situation.WithFolders([.. Situation.Fixtures.Select(f => f.Folder).OfType<FixtureFolder>()]);
        Publish(session);
    }

    /// <summary>The end of a ledger.</summary>
    /// <param name="Kind">The kind of the last entry that is neither a seal nor a snapshot; null in a new ledger.</param>
    /// <param name="Seal">The newest seal.</param>
    public sealed record LastFound(string? Kind, NewestSeal Seal);
}
