using Stockseat.Answers.Records;
using Stockseat.Ledger.Queries;

namespace Stockseat.Ledger.Reviewing;

/// <summary>The rows of the minutes around an instant, by their own instants; and the steps of the clock between them.</summary>
internal sealed class ReviewWindow
{
    /// <summary>How many rows of a busy ledger are looked at: before the instant, and after it.</summary>
    private const int LongestBefore = 15_000;

    private const int LongestAfter = 5_000;

    /// <summary>A step that is longer than this, in seconds, set a clock that nobody had set: a year.</summary>
    private const double LongestStep = 366 * 86400;

    private ReviewWindow(IReadOnlyList<EntryRow> rows, long notRead) => (Rows, NotRead) = (rows, notRead);

    /// <summary>The rows, in the order of their serials.</summary>
    public IReadOnlyList<EntryRow> Rows { get; }

    /// <summary>Between which of the rows others lie that are of another time, by their serials.</summary>
    public IEnumerable<(long Above, long Below)> Gaps => Rows.Zip(Rows.Skip(1), (row, next) => (row.Serial, next.Serial)).Where(g => g.Item2 - g.Item1 > 1);

    /// <summary>How many more the window has.</summary>
    public long NotRead { get; }

    /// <summary>Reads it.</summary>
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
        return new(WithSteps(reader, [.. rows, .. AcrossSteps(reader, rows, at, times)]), notRead);
    }

    /// <summary>What of too long a window is nearest to the instant.</summary>
    private static List<(long Above, long Last)> Near(LedgerReader reader, IReadOnlyList<(long Above, long Last)> stretches, DateTimeOffset at)
    {
        var places = reader.Stretches(new() { From = at, To = at.Next() });
        return [.. stretches.Select(s => Around(s, places)).Where(s => s.Above < s.Last)];
    }

    private static (long Above, long Last) Around((long Above, long Last) stretch, IReadOnlyList<(long Above, long Last)> places)
    {
        var here = places.Where(p => p.Last > stretch.Above && p.Above < stretch.Last).Select(p => (long?)p.Last).FirstOrDefault();
        // Where the instant lies in no stretch, all of this one is before it or after it.
        var middle = here ?? (places.Count == 0 || places[0].Above >= stretch.Last ? stretch.Last : stretch.Above);
        return (Math.Max(stretch.Above, middle - LongestBefore), Math.Min(stretch.Last, middle + LongestAfter));
    }

    /// <summary>Where the clock was set in these minutes, those on the other side of that too, by the time that passed: their instants are off by the step.</summary>
    private static IEnumerable<EntryRow> AcrossSteps(LedgerReader reader, List<EntryRow> rows, DateTimeOffset at, EntryFilter times)
    {
        foreach (var row in rows.Where(r => r.Kind == Kinds.ClockStep))
        {
            if (OlderEntries.Read(row) is not ClockStepBody step || !(Math.Abs(step.Seconds) < LongestStep))
            {
                continue; // a step of years: the clock was not set before
            }

            var isBefore = EntryTime.Parse(row.At) <= at;
            var by = TimeSpan.FromSeconds(isBefore ? -step.Seconds : step.Seconds);
            var (above, last) = isBefore ? (Math.Max(0, row.Serial - LongestBefore), row.Serial - 1) : (row.Serial, row.Serial + LongestAfter);
            foreach (var other in reader.Piece(above, Math.Min(last, reader.Last), int.MaxValue, new() { From = times.From!.Value.Moved(by), To = times.To!.Value.Moved(by) }).Rows)
            {
                yield return other;
            }
        }
    }

    /// <summary>Where the clock was set between two of the rows, the entries that say so belong to them, whatever their instants.</summary>
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
