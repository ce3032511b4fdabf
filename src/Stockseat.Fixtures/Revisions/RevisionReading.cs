namespace Stockseat.Fixtures.Revisions;

/// <summary>What came of reading one revision: the revision, or all its faults.</summary>
/// <param name="Revision">The revision; null when there is a fault.</param>
/// <param name="Faults">The faults; empty when there is a revision.</param>
public sealed record RevisionReading(Revision? Revision, IReadOnlyList<string> Faults);
