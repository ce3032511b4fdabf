namespace Stockseat.Sheets.Drawings;

/// <summary>Values of a run chart that belong to one revision.</summary>
/// <param name="Revision">The revision.</param>
/// <param name="First">The place of its first value, from 0.</param>
/// <param name="Count">The number of values, 1 or more.</param>
/// <param name="Control">Centre line and control limits, in metres; null when there are too few values.</param>
public sealed record RunSection(int Revision, int First, int Count, (double Centre, double Lower, double Upper)? Control);
