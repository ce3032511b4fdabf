namespace Stockseat.Load.Generating;

/// <summary>A clock that goes on by one step each time that it is asked: the writer asks once an entry.</summary>
internal sealed class ShopClock(DateTimeOffset start, TimeSpan step) : TimeProvider
{
    private DateTimeOffset _now = start;

    public override DateTimeOffset GetUtcNow() => _now += step;
}
