namespace Stockseat.Audit.Reviewing.Results;

/// <summary>Instants at the ends of the calendar.</summary>
internal static class Instants
{
    /// <summary>An instant moved; out of the calendar: its end.</summary>
    public static DateTimeOffset Moved(this DateTimeOffset at, TimeSpan by) =>
        by < TimeSpan.Zero ? (at - DateTimeOffset.MinValue < -by ? DateTimeOffset.MinValue : at + by)
            : DateTimeOffset.MaxValue - at < by ? DateTimeOffset.MaxValue : at + by;

    /// <summary>Right after an instant, as entries tell instants.</summary>
    public static DateTimeOffset Next(this DateTimeOffset at) => at.Moved(TimeSpan.FromMicroseconds(1));
}
