namespace Stockseat.Ledger.Seals;

/// <summary>
/// Says when the writer has to seal, and wakes it when that is because nothing comes. Nothing but serials is counted: what came after the
/// newest seal is unsealed, so a seal never asks for the next one.
/// </summary>
internal sealed class Sealing : IDisposable
{
    private readonly SealPolicy? _policy;
    private readonly TimeProvider _time;
    private readonly ITimer? _alarm;
    private volatile bool _armed;
    private long _wrote;
    private long _head;

    /// <summary>Begins to look.</summary>
    /// <param name="policy">When; null: never.</param>
    /// <param name="time">The counter.</param>
    /// <param name="wake">Wakes the writer.</param>
    public Sealing(SealPolicy? policy, TimeProvider time, Action wake)
    {
        (_policy, _time, _wrote) = (policy, time, time.GetTimestamp());
        if (policy is not null)
        {
            _alarm = time.CreateTimer(_ => Ring(wake), null, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
        }
    }

    /// <summary>What it is sealed with; null: nothing.</summary>
    public SealKey? Key => _policy?.Key;

    /// <summary>Told after each commit; one that added nothing is no sign of life.</summary>
    /// <param name="head">The last serial.</param>
    public void Wrote(long head)
    {
        if (head != _head)
        {
            (_head, _wrote) = (head, _time.GetTimestamp());
        }
    }

    /// <summary>Whether a seal is due. When it is not yet, the writer is woken when it is.</summary>
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
            // One alarm for many commits: when it rings early because something came meanwhile, it is set again for the rest.
            _armed = true;
            _alarm!.Change(TimeSpan.FromMilliseconds(Math.Ceiling(left.TotalMilliseconds)), Timeout.InfiniteTimeSpan);
        }

        return false;
    }

    public void Dispose() => _alarm?.Dispose();

    private void Ring(Action wake)
    {
        _armed = false; // Before the writer comes back and looks.
        wake();
    }
}
