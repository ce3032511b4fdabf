using Stockseat.Answers.Entries;
using Stockseat.Answers.Notes;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Ledger.Reading;

namespace Stockseat.Audit.Reviewing.Window;

/// <summary>Notes of a fixture that were written after the minutes and are about them: people write down what happened when there is time.</summary>
/// <param name="reader">The ledger.</param>
/// <param name="older">Takes those that are found.</param>
/// <param name="from">The first instant of the minutes.</param>
/// <param name="to">The last.</param>
internal sealed class LaterNotes(LedgerReader reader, OlderEntries older, DateTimeOffset from, DateTimeOffset to)
{
    /// <summary>How many notes of a fixture are read: the newest.</summary>
    private const int Most = 200;

    /// <summary>Finds them.</summary>
    /// <param name="fixtures">The fixtures.</param>
    /// <param name="shown">The entries of the minutes.</param>
    public void Find(IEnumerable<string> fixtures, IReadOnlyList<ReviewEntry> shown)
    {
        var serials = shown.Select(e => e.Serial).ToHashSet();
        var above = shown.Count > 0 ? shown[0].Serial : 0;
        foreach (var row in fixtures.SelectMany(f => reader.Of(f, Kinds.Note, above, reader.Last + 1, Most)).ToList())
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
