using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Advising;

/// <summary>What a check knows beside the file: the time, and the other fixtures of the cell.</summary>
/// <param name="Now">When it is checked.</param>
/// <param name="Others">The newest valid revision of each other fixture.</param>
public sealed record CheckedAt(DateTimeOffset Now, IReadOnlyList<Revision> Others);
