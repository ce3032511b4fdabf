namespace Stockseat.Sheets.Timelines;

/// <summary>What a timeline shows.</summary>
public sealed record Timeline
{
    /// <summary>The stretches in which the clock was not set, one or more.</summary>
    public required IReadOnlyList<TimelinePart> Parts { get; init; }

    /// <summary>The rows, lane by lane.</summary>
    public required IReadOnlyList<TimelineRow> Rows { get; init; }

    /// <summary>The marks, in order.</summary>
    public required IReadOnlyList<TimelineMark> Marks { get; init; }

    /// <summary>The instant in question; all times of day have its offset.</summary>
    public required DateTimeOffset Instant { get; init; }
}
