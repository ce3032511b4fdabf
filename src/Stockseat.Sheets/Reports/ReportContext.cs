using Stockseat.Answers.Notes;
using Stockseat.Audit.Reviewing;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Audit.Showing;
using Stockseat.Seating.Quantities;
using Stockseat.Sheets.Numbers;

namespace Stockseat.Sheets.Reports;

/// <summary>What all parts of a report need.</summary>
internal sealed class ReportContext
{
    private readonly HashSet<long> _shown;
    private readonly ILookup<long, NoteBody> _notes;
    private readonly Dictionary<long, List<int>> _findings = [];

    public ReportContext(Review review, Display display)
    {
        (Review, Clock, Display) = (review, new(review.At, display.Zone), display);
        _shown = [.. review.Entries.Select(e => e.Serial)];
        _notes = NotePlaces.Of(review);
        for (var i = 0; i < review.Findings.Count; i++)
        {
            foreach (var serial in review.Findings[i].Serials)
            {
                (_findings.TryGetValue(serial, out var numbers) ? numbers : _findings[serial] = []).Add(i + 1);
            }
        }
    }

    public Review Review { get; }

    public ReportClock Clock { get; }

    /// <summary>The unit of its lengths, the zone of its times, its paper.</summary>
    public Display Display { get; }

    /// <summary>The unit of its lengths.</summary>
    public LengthUnit Unit => Display.Length;

    /// <summary>The numbers of the findings that are about an entry.</summary>
    public IReadOnlyList<int> FindingsOf(long serial) => _findings.GetValueOrDefault(serial) ?? [];

    /// <summary>The notes that belong behind an entry; 0: before the first.</summary>
    public IEnumerable<NoteBody> NotesBehind(long serial) => _notes[serial];

    /// <summary>An entry's serial, as a link to its row when it has one.</summary>
    public (string Text, string? Target) Entry(long serial) => (PrintedNumbers.Whole(serial), _shown.Contains(serial) ? RowId(serial) : null);

    /// <summary>"finding 1, 3" as links.</summary>
    public IEnumerable<(string Text, string? Target)> FindingLinks(long serial)
    {
        var numbers = FindingsOf(serial);
        for (var i = 0; i < numbers.Count; i++)
        {
            yield return (i > 0 ? ", " : numbers.Count == 1 ? "finding " : "findings ", null);
            yield return (PrintedNumbers.Whole(numbers[i]), FindingId(numbers[i]));
        }
    }

    /// <summary>The id of an entry's row.</summary>
    public static string RowId(long serial) => $"entry-{PrintedNumbers.Whole(serial)}";

    /// <summary>The id of a finding.</summary>
    public static string FindingId(int number) => $"finding-{PrintedNumbers.Whole(number)}";
}
