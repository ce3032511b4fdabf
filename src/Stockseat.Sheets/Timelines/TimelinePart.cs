namespace Stockseat.Sheets.Timelines;

/// <summary>A stretch in which the clock was not set.</summary>
/// <param name="From">Where it begins.</param>
/// <param name="To">Where it ends.</param>
/// <param name="HasInstant">Whether the instant in question is in it.</param>
/// <param name="Break">What happened to the clock before it; "" for the first one.</param>
public sealed record TimelinePart(DateTimeOffset From, DateTimeOffset To, bool HasInstant, string Break);
