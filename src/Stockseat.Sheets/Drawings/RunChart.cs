namespace Stockseat.Sheets.Drawings;

/// <summary>Values in the order of time.</summary>
/// <param name="Name">What they are.</param>
/// <param name="Points">The values, 1 or more.</param>
/// <param name="Sections">The revisions that they belong to, all of them in their order.</param>
public sealed record RunChart(string Name, IReadOnlyList<RunPoint> Points, IReadOnlyList<RunSection> Sections);
