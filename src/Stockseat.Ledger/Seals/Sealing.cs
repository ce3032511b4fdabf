namespace Stockseat.Ledger.Seals;

/// <summary>
/// Says when the writer has to seal, and wakes it when the reason is that no entry comes. Only serials are counted: the entries after the newest seal are
/// unsealed, so a seal never makes another seal due.
/// </summary>
internal sealed class Sealing : IDisposable
{
    private readonly SealPolicy? _policy;
    private readonly TimeProvider _time;
    private readonly ITimer? _alarm;
    private volatile bool _armed;
    private long _wrote;
    private long _head;

    /// <summary>Starts to watch.</summary>
    /// <param name="policy">When to seal; null: never.</param>
    /// <param name="time">The clock's counter.</param>
    /// <param name="wake">Wakes the writer.</param>
    public Sealing(SealPolicy? policy, TimeProvider time, Action wake)
    {
        (_policy, _time, _wrote) = (policy, time, time.GetTimestamp());
        if (policy is not null)
        {
            _alarm = time.CreateTimer(_ => Ring(wake), null, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
        }
    }

    /// <summary>The key with which the ledger is sealed; null: it is not sealed.</summary>
    public SealKey? Key => _policy?.Key;

    /// <summary>Called after each commit; a commit that added no entry does not count as activity.</summary>
    /// <param name="head">The last serial.</param>
    public void Wrote(long head)
    {
        if (head != _head)
        {
            (_head, _wrote) = (head, _time.GetTimestamp());
        }
    }

    /// <summary>Whether a seal is due. When it is due only later, the writer is woken then.</summary>
    /// <param name="unsealed">How many entries came after the newest seal.</param>
    public bool IsDue(long unsealed)
    {
        if (_policy is not { } policy || unsealed == 0)
        {
            return false;
        }

        if (unsealed >= policy.Every || policy.After - _time.GetElapsedTime(_wrote) is var left && left <= TimeSpan.Zero)
        {
            return true;
        }

        if (!_armed)
        {
            // One alarm for many commits: when it rings too early, because entries came meanwhile, it is set again for the remaining time.
            _armed = true;
            _alarm!.Change(TimeSpan.FromMilliseconds(Math.Ceiling(left.TotalMilliseconds)), Timeout.InfiniteTimeSpan);
        }

        return false;
    }

    public void Dispose() => _alarm?.Dispose();

    private void Ring(Action wake)
    {
        _armed = false; // This has to be set before the writer comes back and looks.
        wake();
    }
}
