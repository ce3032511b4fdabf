using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Store;

namespace Stockseat.Audit.Reviewing.Window;

/// <summary>The rows of the minutes around an instant, by their own instants; and the steps of the clock between them.</summary>
internal sealed class ReviewWindow
{
    /// <summary>How many rows of a busy ledger are read: before the instant, and after it.</summary>
    private const int LongestBefore = 15_000;

    private const int LongestAfter = 5_000;

    /// <summary>A step longer than this, in seconds, set a clock that had never been set: a year.</summary>
    private const double LongestStep = 366 * 86400;

    private ReviewWindow(IReadOnlyList<EntryRow> rows, Dictionary<long, TimeSpan> across, long notRead) => (Rows, _across, NotRead) = (rows, across, notRead);

    /// <summary>How much the clock was set between the instant's side of a step and the entries on the other side.</summary>
    private readonly Dictionary<long, TimeSpan> _across;

    /// <summary>The rows, in the order of their serials.</summary>
    public IReadOnlyList<EntryRow> Rows { get; }

    /// <summary>How many more the window has.</summary>
    public long NotRead { get; }

    /// <summary>The instant of one of its entries, as if the clock had not been set in between.</summary>
    public DateTimeOffset At(ReviewEntry entry) => _across.TryGetValue(entry.Serial, out var by) ? entry.At.Moved(by) : entry.At;

    /// <summary>Reads the window.</summary>
    /// <param name="reader">The ledger.</param>
    /// <param name="at">The instant.</param>
    /// <param name="before">How long before it.</param>
    /// <param name="after">How long after it.</param>
    public static ReviewWindow Read(LedgerReader reader, DateTimeOffset at, TimeSpan before, TimeSpan after)
    {
        var times = new EntryFilter { From = at.Moved(-before), To = at.Moved(after).Next() };
        var stretches = reader.Stretches(times);
        var near = stretches.Sum(s => s.Last - s.Above) > LongestBefore + LongestAfter ? Near(reader, stretches, at) : stretches;
        var rows = new List<EntryRow>();
        foreach (var (above, last) in near)
        {
            for (var from = above; from < last;)
            {
                var piece = reader.Piece(from, last, int.MaxValue, times);
                rows.AddRange(piece.Rows);
                from = piece.End;
            }
        }

        var notRead = ReferenceEquals(near, stretches) ? 0 : stretches.Sum(s => reader.Count(s, times)) - rows.Count;
        var known = rows.Select(r => r.Serial).ToHashSet();
        var across = new Dictionary<long, TimeSpan>();
        foreach (var (row, by) in AcrossSteps(reader, [.. rows], stretches, at, times).Where(r => known.Add(r.Row.Serial)))
        {
            rows.Add(row);
            across[row.Serial] = by;
        }

        return new(WithSteps(reader, rows), across, notRead);
    }

    /// <summary>The part of a window with too many entries that is nearest to the instant: the last entries before it, and the first ones after it.</summary>
    private static List<(long Above, long Last)> Near(LedgerReader reader, IReadOnlyList<(long Above, long Last)> stretches, DateTimeOffset at)
    {
        // The entries that are not after the instant. Entries beyond the last of them in its stretch are after it, and so is a stretch without any.
        var passed = reader.Stretches(new() { To = at.Next() });
        var split = stretches.Select(
            s => (
                s.Above, Middle: passed.Where(p => p.Last > s.Above && p.Above < s.Last).Select(p => Math.Min(p.Last, s.Last)).DefaultIfEmpty(s.Above).Max(),
                s.Last)).ToList();
        var near = new List<(long Above, long Last)>();
        var left = (long)LongestBefore;
        foreach (var (above, middle, _) in Enumerable.Reverse(split))
        {
            near.Add((Math.Max(above, middle - left), middle));
            left -= middle - near[^1].Above;
        }

        left = LongestAfter;
        foreach (var (_, middle, last) in split)
        {
            near.Add((middle, Math.Min(last, middle + left)));
            left -= near[^1].Last - middle;
        }

        return [.. near.Where(s => s.Above < s.Last).OrderBy(s => s.Above)];
    }

    /// <summary>
    /// Where the clock was set, entries on the other side of that are included too, by elapsed time: their instants are off by the step.
    /// </summary>
    private static IEnumerable<(EntryRow Row, TimeSpan By)> AcrossSteps(
        LedgerReader reader, List<EntryRow> rows, IReadOnlyList<(long Above, long Last)> stretches, DateTimeOffset at, EntryFilter times)
    {
        // A step that ends a stretch has an instant by the new clock, which may be outside these minutes.
        var ends = stretches.Select(s => s.Last + 1).Where(serial => serial <= reader.Last).Select(reader.Find).OfType<EntryRow>().ToList();
        var within = rows.Select(r => r.Serial).ToHashSet();
        foreach (var row in rows.Concat(ends.Where(r => !within.Contains(r.Serial) && within.Contains(r.Serial - 1))).Where(r => r.Kind == Kinds.ClockStep))
        {
            if (OlderEntries.Read(row) is not ClockStepBody step || !(Math.Abs(step.Seconds) < LongestStep) || !EntryTime.TryParse(row.At, out var set))
            {
                continue; // a step of years: the clock was not set before
            }

            var isBefore = within.Contains(row.Serial) && set <= at;
            var by = TimeSpan.FromSeconds(isBefore ? step.Seconds : -step.Seconds);
            var (above, last) = isBefore ? (Math.Max(0, row.Serial - LongestBefore), row.Serial - 1) : (row.Serial - 1, row.Serial + LongestAfter);
            var moved = new EntryFilter { From = times.From!.Value.Moved(-by), To = times.To!.Value.Moved(-by) };
            foreach (var other in reader.Piece(above, Math.Min(last, reader.Last), int.MaxValue, moved).Rows)
            {
                yield return (other, by);
            }
        }
    }

    /// <summary>Where the clock was set between two of the rows, the entries about that are included, whatever their instants.</summary>
    private static List<EntryRow> WithSteps(LedgerReader reader, List<EntryRow> rows)
    {
        if (rows.Count == 0)
        {
            return rows;
        }

        var (first, last) = (rows.Min(r => r.Serial), rows.Max(r => r.Serial));
        return [.. rows.Concat(reader.ClockSteps(first, last)).DistinctBy(r => r.Serial).OrderBy(r => r.Serial)];
    }
}
