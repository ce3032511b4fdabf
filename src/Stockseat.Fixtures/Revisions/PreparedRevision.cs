using System.Collections.Concurrent;
using Stockseat.Seating.Uncertainty;

namespace Stockseat.Fixtures.Revisions;

/// <summary>
/// What decisions take from a revision, worked out before anything is decided on it: solving its envelopes takes far longer than an answer may.
/// Whoever reads files or ledgers prepares what can come into force.
/// </summary>
/// <param name="Envelopes">The diameters that it holds.</param>
/// <param name="Corners">The nests where what grows with the distance may be largest.</param>
/// <param name="Taught">What the taught seat adds to every uncertainty.</param>
public sealed record PreparedRevision(RevisionEnvelopes Envelopes, IReadOnlyList<CornerNest> Corners, TaughtTerms Taught)
{
    /// <summary>So many may be remembered before those that nobody holds any more are dropped.</summary>
    private const int Many = 256;

    /// <summary>
    /// What somebody still holds, by digest: the same values were read from a file and come back from the ledger. It remembers results, and changes none.
    /// </summary>
    private static readonly ConcurrentDictionary<string, WeakReference<PreparedRevision>> Held = new(StringComparer.Ordinal);

    /// <summary>Works it out, unless somebody still holds what was worked out of the same values.</summary>
    internal static PreparedRevision Of(Revision revision)
    {
        if (Held.TryGetValue(revision.Digest, out var known) && known.TryGetTarget(out var held))
        {
            return held;
        }

        var layout = revision.Layout;
        var made = new PreparedRevision(
            RevisionEnvelopes.Of(revision),
            [.. layout.Corners().Select(c => new CornerNest(c.Column, c.Row, layout.OffsetPlan(c.Column, c.Row)))],
            new(revision.TaughtSeat));
        if (Held.Count >= Many)
        {
            foreach (var (digest, reference) in Held)
            {
                if (!reference.TryGetTarget(out _))
                {
                    Held.TryRemove(digest, out _);
                }
            }
        }

        Held[revision.Digest] = new(made);
        return made;
    }
}
