using Stockseat.Answers.Entries;
using Stockseat.Answers.Notes;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Reviewing;

/// <summary>Where notes belong among the entries: behind the entry that they are about, or behind the last one up to the instant that they are about.</summary>
public static class NotePlaces
{
    /// <summary>The notes by the serial of the entry that they belong behind; 0: before the first. A note about the moment in which it was written has its own
    /// place and is left out.</summary>
    /// <param name="review">The review: its entries, and the notes that were written later.</param>
    public static ILookup<long, NoteBody> Of(Review review) => review.Entries.Concat(review.Older).Select(e => e.Body).OfType<NoteBody>()
        .DistinctBy(n => n.Serial).OrderBy(n => n.Serial)
        .Select(n => (Note: n, Place: Place(review, n))).Where(n => n.Place is not null).ToLookup(n => n.Place!.Value, n => n.Note);

    private static long? Place(Review review, NoteBody note) =>
        note.Entry is { } entry ? (review.Entries.Any(e => e.Serial == entry) ? entry : null)
            : EntryTime.TryParse(note.Instant, out var at) && at >= review.From && at <= review.To
            ? review.Entries.Where(e => e.At <= at).Select(e => e.Serial).DefaultIfEmpty(0).Max() : null;
}
