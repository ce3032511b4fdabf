using System.Collections.ObjectModel;

namespace Stockseat.Fixtures.Revisions;

/// <summary>What came of reading one revision: the revision, or all its faults.</summary>
/// <param name="Revision">The revision; null when there is a fault.</param>
/// <param name="Faults">The faults; empty when there is a revision.</param>
public sealed record RevisionReading(Revision? Revision, IReadOnlyList<string> Faults)
{
    /// <summary>Its quantities by path, each as its file wrote it; none when it was read from resolved values.</summary>
    public IReadOnlyDictionary<string, string> Written { get; init; } = ReadOnlyDictionary<string, string>.Empty;
}
