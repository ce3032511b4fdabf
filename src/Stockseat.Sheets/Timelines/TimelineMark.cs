namespace Stockseat.Sheets.Timelines;

/// <summary>Something that happened.</summary>
/// <param name="Row">Its row, from 0.</param>
/// <param name="Part">The part of the timeline that it is in, from 0.</param>
/// <param name="At">Its instant.</param>
/// <param name="Label">What stands beside it when there is room; "" for nothing.</param>
/// <param name="Short">What stands there when there is no room for the label; "" for nothing.</param>
/// <param name="Weight">How much the label is wanted: the largest first.</param>
/// <param name="IsRinged">Whether it is to be looked at: it gets a ring.</param>
/// <param name="IsAfter">Whether it is after the instant; null: as its own says.</param>
public sealed record TimelineMark(
    int Row, int Part, DateTimeOffset At, string Label = "", string Short = "", int Weight = 0, bool IsRinged = false, bool? IsAfter = null);
