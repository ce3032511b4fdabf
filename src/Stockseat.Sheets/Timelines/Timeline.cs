namespace Stockseat.Sheets.Timelines;

/// <summary>What a timeline shows.</summary>
public sealed record Timeline
{
    /// <summary>The stretches in which the clock ran on, one or more.</summary>
    public required IReadOnlyList<TimelinePart> Parts { get; init; }

    /// <summary>The rows, those of one lane together.</summary>
    public required IReadOnlyList<TimelineRow> Rows { get; init; }

    /// <summary>The marks, in order.</summary>
    public required IReadOnlyList<TimelineMark> Marks { get; init; }

    /// <summary>The instant in question; its offset is that of all times of day.</summary>
    public required DateTimeOffset Instant { get; init; }
}
