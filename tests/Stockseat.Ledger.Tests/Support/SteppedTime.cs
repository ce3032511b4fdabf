using Microsoft.Extensions.Time.Testing;

namespace Stockseat.Ledger.Tests.Support;

/// <summary>A clock that can be set beside its counter, which runs on; the base's counter is set with it.</summary>
internal sealed class SteppedTime : FakeTimeProvider
{
    private TimeSpan _set;

    public SteppedTime(int days = 0)
        : base(Ledger.Start.AddDays(days))
    {
    }

    public override long GetTimestamp() => base.GetTimestamp() - _set.Ticks;

    /// <summary>Sets the clock only.</summary>
    public void Set(TimeSpan by)
    {
        _set += by;
        AdjustTime(GetUtcNow() + by);
    }
}
