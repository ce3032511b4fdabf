namespace Stockseat.Audit.Reviewing.Results;

/// <summary>Instants at the ends of the calendar.</summary>
public static class Instants
{
    /// <summary>An instant moved by a time; beyond the calendar, the end of the calendar.</summary>
    public static DateTimeOffset Moved(this DateTimeOffset at, TimeSpan by) =>
        by < TimeSpan.Zero ? (at - DateTimeOffset.MinValue < -by ? DateTimeOffset.MinValue : at + by)
            : DateTimeOffset.MaxValue - at < by ? DateTimeOffset.MaxValue : at + by;

    /// <summary>The next instant that entries can state.</summary>
    public static DateTimeOffset Next(this DateTimeOffset at) => at.Moved(TimeSpan.FromMicroseconds(1));
}
