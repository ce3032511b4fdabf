using Microsoft.Extensions.Time.Testing;

namespace Stockseat.Tests.Support.Clocks;

/// <summary>A clock that can be set independently of its counter, which keeps running; the base class's counter is set with it.</summary>
internal sealed class SteppedTime : FakeTimeProvider
{
    private TimeSpan _set;

    /// <param name="days">How many days after the tests' usual start.</param>
    public SteppedTime(int days = 0)
        : base(new DateTimeOffset(2026, 11, 25, 8, 0, 0, TimeSpan.Zero).AddDays(days))
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
