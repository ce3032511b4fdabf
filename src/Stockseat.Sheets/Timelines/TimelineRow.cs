namespace Stockseat.Sheets.Timelines;

/// <summary>A row of a timeline: marks of one meaning.</summary>
/// <param name="Lane">The lane of the row; the rows of a lane stand together.</param>
/// <param name="Name">What its marks mean; without marks, what the lane would show.</param>
/// <param name="Shape">How its marks look; null when there is none.</param>
public sealed record TimelineRow(int Lane, string Name, MarkShape? Shape);
