using Stockseat.Fixtures.Revisions;

namespace Stockseat.Audit.Reviewing.Results;

/// <summary>What an adoption changed: the values that differ from those of the revision before.</summary>
/// <param name="Serial">The adoption.</param>
/// <param name="Fixture">The fixture.</param>
/// <param name="Before">The number of the revision before.</param>
/// <param name="After">The number of the revision that came into force.</param>
/// <param name="Changes">The differences, those that move every answer first; none: only the number differs.</param>
public sealed record AdoptionChanges(long Serial, string Fixture, int Before, int After, IReadOnlyList<RevisionChange> Changes);
