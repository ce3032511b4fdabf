namespace Stockseat.Sheets.Drawings;

/// <summary>A recheck as charts show it. Lengths in metres.</summary>
/// <param name="Revision">The revision that it checked.</param>
/// <param name="At">Its instant.</param>
/// <param name="Along">The miss along the seat axis.</param>
/// <param name="Across">The miss across it.</param>
/// <param name="Expected">The miss that the uncertainty explains, along and across: U, k = 2; null: not known.</param>
/// <param name="Limit">The limit of the length of the miss; null: none is stated.</param>
/// <param name="Passed">Whether it passed; null: not judged.</param>
public readonly record struct ChartedRecheck(
    int Revision, DateTimeOffset At, double Along, double Across, (double Along, double Across)? Expected, double? Limit, bool? Passed);
