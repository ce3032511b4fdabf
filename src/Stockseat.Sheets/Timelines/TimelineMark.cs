namespace Stockseat.Sheets.Timelines;

/// <summary>Something that happened.</summary>
/// <param name="Row">Its row, from 0.</param>
/// <param name="Part">The part of the timeline that it is in, from 0.</param>
/// <param name="At">Its instant.</param>
/// <param name="Label">The label beside it when there is room; "" for none.</param>
/// <param name="Short">The short label when there is no room for the label; "" for none.</param>
/// <param name="Weight">How important the label is: the largest comes first.</param>
/// <param name="IsRinged">Whether a finding is about it: it gets a ring.</param>
/// <param name="IsAfter">Whether it is after the instant; null: as its own instant says.</param>
public sealed record TimelineMark(
    int Row, int Part, DateTimeOffset At, string Label = "", string Short = "", int Weight = 0, bool IsRinged = false, bool? IsAfter = null);
