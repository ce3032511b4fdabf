using Stockseat.Answers.Entries;
using Stockseat.Answers.Notes;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Ledger.Reading;

namespace Stockseat.Audit.Reviewing.Window;

/// <summary>Notes that were written after the minutes and are about them: people write down what happened when there is time.</summary>
/// <param name="reader">The ledger.</param>
/// <param name="older">Takes those that are found.</param>
/// <param name="from">The first instant of the minutes.</param>
/// <param name="to">The last.</param>
internal sealed class LaterNotes(LedgerReader reader, OlderEntries older, DateTimeOffset from, DateTimeOffset to)
{
    /// <summary>How many notes of a fixture, and of all together, are read: the newest.</summary>
    private const int Most = 200;

    /// <summary>Finds them.</summary>
    /// <param name="fixtures">The fixtures of the minutes.</param>
    /// <param name="shown">The entries of the minutes.</param>
    /// <param name="all">Whether the review is of all fixtures; otherwise only notes of these fixtures, and of none in particular, count.</param>
    public void Find(IReadOnlyList<string> fixtures, IReadOnlyList<ReviewEntry> shown, bool all)
    {
        var serials = shown.Select(e => e.Serial).ToHashSet();
        var above = shown.Count > 0 ? shown[0].Serial : 0;
        var rows = fixtures.SelectMany(f => reader.Of(f, Kinds.Note, above, reader.Last + 1, Most))
            .Concat(reader.Newest(Most, new(Kind: Kinds.Note)).Where(r => all || r.Fixture is null || fixtures.Contains(r.Fixture)));
        foreach (var row in rows.DistinctBy(r => r.Serial).ToList())
        {
            if (!serials.Contains(row.Serial) && OlderEntries.Read(row) is NoteBody note && IsAbout(note, serials))
            {
                _ = older.Take<NoteBody>(row);
            }
        }
    }

    private bool IsAbout(NoteBody note, HashSet<long> serials) =>
        note.Entry is { } entry ? serials.Contains(entry)
            : EntryTime.TryParse(note.Instant, out var at) && at >= from && at <= to;
}
