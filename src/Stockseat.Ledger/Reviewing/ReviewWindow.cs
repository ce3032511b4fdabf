using Stockseat.Ledger.Queries;

namespace Stockseat.Ledger.Reviewing;

/// <summary>The rows of the minutes around an instant, by their own instants; and the steps of the clock between them.</summary>
internal sealed class ReviewWindow
{
    /// <summary>How many rows of a busy ledger are looked at: before the instant, and after it.</summary>
    private const int LongestBefore = 15_000;

    private const int LongestAfter = 5_000;

    private ReviewWindow(IReadOnlyList<EntryRow> rows, long notRead) => (Rows, NotRead) = (rows, notRead);

    /// <summary>The rows, in the order of their serials.</summary>
    public IReadOnlyList<EntryRow> Rows { get; }

    /// <summary>How many more the window has.</summary>
    public long NotRead { get; }

    /// <summary>Reads it.</summary>
    /// <param name="reader">The ledger.</param>
    /// <param name="at">The instant.</param>
    /// <param name="before">How long before it.</param>
    /// <param name="after">How long after it.</param>
    public static ReviewWindow Read(LedgerReader reader, DateTimeOffset at, TimeSpan before, TimeSpan after)
    {
        var times = new EntryFilter { From = Moved(at, -before), To = Moved(at, after + TimeSpan.FromMicroseconds(1)) };
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
        return new(WithSteps(reader, rows), notRead);
    }

    /// <summary>An instant moved; out of the calendar: its end.</summary>
    private static DateTimeOffset Moved(DateTimeOffset at, TimeSpan by) =>
        by < TimeSpan.Zero ? (at - DateTimeOffset.MinValue < -by ? DateTimeOffset.MinValue : at + by) : DateTimeOffset.MaxValue - at < by ? DateTimeOffset.MaxValue : at + by;

    /// <summary>What of too long a window is nearest to the instant.</summary>
    private static List<(long Above, long Last)> Near(LedgerReader reader, IReadOnlyList<(long Above, long Last)> stretches, DateTimeOffset at)
    {
        var places = reader.Stretches(new() { From = at, To = at.AddMicroseconds(1) });
        return [.. stretches.Select(s => Around(s, places)).Where(s => s.Above < s.Last)];
    }

    private static (long Above, long Last) Around((long Above, long Last) stretch, IReadOnlyList<(long Above, long Last)> places)
    {
        var here = places.Where(p => p.Last > stretch.Above && p.Above < stretch.Last).Select(p => (long?)p.Last).FirstOrDefault();
        // Where the instant lies in no stretch, all of this one is before it or after it.
        var middle = here ?? (places.Count == 0 || places[0].Above >= stretch.Last ? stretch.Last : stretch.Above);
        return (Math.Max(stretch.Above, middle - LongestBefore), Math.Min(stretch.Last, middle + LongestAfter));
    }

    /// <summary>Where the clock was set between two of the rows, the entries that say so belong to them, whatever their instants.</summary>
    private static List<EntryRow> WithSteps(LedgerReader reader, List<EntryRow> rows) => rows.Count == 0
        ? rows
        : [.. rows.Concat(reader.ClockSteps(rows[0].Serial, rows[^1].Serial)).DistinctBy(r => r.Serial).OrderBy(r => r.Serial)];
}
