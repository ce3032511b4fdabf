using System.Collections.Concurrent;
using Stockseat.Seating.Uncertainty;

namespace Stockseat.Fixtures.Revisions;

/// <summary>
/// The values that decisions need from a revision, computed before anything is decided on it: solving its envelopes takes far longer than an answer may take.
/// Whoever reads files or ledgers prepares the revisions that can come into force.
/// </summary>
/// <param name="Envelopes">The diameters that it holds.</param>
/// <param name="Corners">The nests at which a quantity that grows with the distance may be largest.</param>
/// <param name="Taught">The part of every uncertainty that comes from the taught seat.</param>
public sealed record PreparedRevision(RevisionEnvelopes Envelopes, IReadOnlyList<CornerNest> Corners, TaughtTerms Taught)
{
    /// <summary>How many are remembered at most before those that nobody uses any more are dropped.</summary>
    private const int Many = 256;

    /// <summary>
    /// The prepared values that somebody still uses, by digest: the same values are read from a file and come back from the ledger. It remembers results and
    /// never changes one.
    /// </summary>
    private static readonly ConcurrentDictionary<string, WeakReference<PreparedRevision>> Held = new(StringComparer.Ordinal);

    /// <summary>Computes the values, unless somebody still uses those of the same digest.</summary>
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
