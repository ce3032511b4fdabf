namespace Stockseat.Audit.Explaining;

/// <summary>A part of a working, such as the seat at the taught diameter.</summary>
/// <param name="Title">What it is about.</param>
/// <param name="Lines">Its steps, in order.</param>
public sealed record WorkingSection(string Title, IReadOnlyList<WorkingLine> Lines);
