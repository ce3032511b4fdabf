namespace Stockseat.Sheets.Drawings;

/// <summary>One value of a run chart.</summary>
/// <param name="At">Its instant.</param>
/// <param name="Metres">The value, in metres.</param>
/// <param name="Expected">How far from 0 it may be expected, in metres; null when that is not known.</param>
/// <param name="Limit">How far from 0 it may be, in metres; null: no limit.</param>
/// <param name="Passed">Whether the recheck passed; null: not judged.</param>
/// <param name="Beyond">Whether it is beyond the control limits.</param>
public readonly record struct RunPoint(DateTimeOffset At, double Metres, double? Expected, double? Limit, bool? Passed, bool Beyond);
