namespace Stockseat.Ledger.Verifying;

/// <summary>Puts the results of pieces together in the order of the chain, whichever piece was ready first.</summary>
internal sealed class Merge(SealJudge seals, Action<long, long>? progress, long total)
{
    private readonly Lock _lock = new();
    private readonly Dictionary<long, WalkResult> _waiting = [];
    private readonly FaultList _sealFaults = new();
    private long _next;

    public WalkResult All { get; } = new();

    /// <summary>The pieces do not fit together: rows are missing or the file is damaged, and one walk from the first row has to find the place.</summary>
    public bool Broken { get; private set; }

    /// <summary>Takes the result of a piece; pieces are numbered from 0.</summary>
    public void Take(long piece, WalkResult result)
    {
        lock (_lock)
        {
            Broken |= result.Gaps || result.Damage is not null;
            _waiting.Add(piece, result);
            while (_waiting.Remove(_next, out var next))
            {
                _next++;
                Add(next);
            }

            progress?.Invoke(All.Entries, total);
        }
    }

    /// <summary>The faults of the chain, then those of the seals.</summary>
    public FaultList Faults()
    {
        var faults = new FaultList();
        faults.Add(All.Faults);
        foreach (var snapshot in All.Snapshots.Where(s => !All.Faults.HasAny(s.After, s.Serial)))
        {
            faults.Add(snapshot.Serial, FaultKinds.Snapshot,
                $"entry {snapshot.Serial} does not carry what counts after entry {snapshot.Serial - 1}: {snapshot.Text}");
        }

        faults.Add(_sealFaults);
        return faults;
    }

    private void Add(WalkResult next)
    {
        // A search down a broken page may find a row that a search up did not find.
        Broken |= next.Before != Math.Max(0, All.LastSerial);
        All.Entries += next.Entries;
        All.Standing += next.Standing;
        All.RefusedPushes += next.RefusedPushes;
        All.Ledger ??= next.Ledger;
        All.Unreadable ??= next.Unreadable;
        All.Damage ??= next.Damage;
        All.Faults.Add(next.Faults);
        All.Snapshots.AddRange(next.Snapshots);
        if (next.Entries > 0)
        {
            (All.LastSerial, All.LastHash) = (next.LastSerial, next.LastHash);
        }

        next.Seals.ForEach(s => seals.Take(s, All.Ledger, _sealFaults));
    }
}
