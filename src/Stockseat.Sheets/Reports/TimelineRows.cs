using Stockseat.Answers.Entries;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Sheets.Timelines;

namespace Stockseat.Sheets.Reports;

/// <summary>Which entries a timeline shows in which row: the lanes of a review and the marks in each.</summary>
internal static class TimelineRows
{
    private static readonly string[] Lanes = ["measured, emptied", "asked and answered", "refused", "confirmed, done", "adopted, held",
        "service, notes"];

    private static readonly (int Lane, string Kind, string Name, string Word, MarkShape Shape)[] Kind =
    [
        (0, Kinds.Measurement, "measured", "measured", MarkShape.Disc),
        (0, Kinds.Emptied, "emptied or refilled", "emptied", MarkShape.Ring),
        (0, Kinds.LotDescribed, "lot described", "lot", MarkShape.Plus),
        (1, Kinds.Answer, "asked and answered", "answer", MarkShape.Triangle),
        (1, Kinds.Trial, "trial", "trial", MarkShape.OpenTriangle),
        (2, Kinds.Refusal, "refused", "refusal", MarkShape.Cross),
        (3, Kinds.Confirmation, "confirmed", "confirmed", MarkShape.Tick),
        (3, Kinds.Done, "carried out", "done", MarkShape.DoubleTick),
        (4, Kinds.RevisionAdopted, "revision adopted", "adopted", MarkShape.Square),
        (4, Kinds.RevisionRejected, "revision file rejected", "rejected", MarkShape.CrossedSquare),
        (4, Kinds.Held, "held", "held", MarkShape.Opening),
        (4, Kinds.Released, "released", "released", MarkShape.Closing),
        (4, Kinds.Recheck, "rechecked", "recheck", MarkShape.Diamond),
        (5, Kinds.ServiceStarted, "service started", "started", MarkShape.Pointer),
        (5, Kinds.ServiceStopped, "service stopped", "stopped", MarkShape.Frame),
        (5, Kinds.UncleanStop, "ended without a clean stop", "ended", MarkShape.Star),
        (5, Kinds.ClockStep, "clock set", "clock", MarkShape.Zigzag),
        (5, Kinds.Seal, "sealed", "seal", MarkShape.Bar),
        (5, Kinds.Snapshot, "snapshot", "snapshot", MarkShape.Corner),
        (5, Kinds.RolledOver, "ledger rolled over", "rolled", MarkShape.DoubleBar),
        (5, Kinds.Note, "note", "note", MarkShape.Page),
        (5, "", "entry that can't be read", "entry", MarkShape.Question),
    ];

    /// <summary>The rows that have marks, and one row for each lane without marks.</summary>
    /// <param name="entries">The entries.</param>
    /// <param name="rowOf">The row of each kind.</param>
    public static List<TimelineRow> Of(IReadOnlyList<ReviewEntry> entries, out Dictionary<int, int> rowOf)
    {
        var (rows, present) = (new List<TimelineRow>(), entries.Select(KindOf).ToHashSet());
        rowOf = [];
        for (var lane = 0; lane < Lanes.Length; lane++)
        {
            var before = rows.Count;
            for (var i = 0; i < Kind.Length; i++)
            {
                if (Kind[i].Lane == lane && present.Contains(i))
                {
                    rowOf[i] = rows.Count;
                    rows.Add(new(lane, Kind[i].Name, Kind[i].Shape));
                }
            }

            if (rows.Count == before)
            {
                rows.Add(new(lane, $"{Lanes[lane]}: none", null));
            }
        }

        return rows;
    }

    /// <summary>The kind of an entry, for its row; entries that can't be read have a row of their own.</summary>
    public static int KindOf(ReviewEntry entry)
    {
        var found = entry.Body is null ? -1 : Array.FindIndex(Kind, k => k.Kind == entry.Row.Kind);
        return found < 0 ? Kind.Length - 1 : found;
    }

    /// <summary>The lane of a kind.</summary>
    public static int LaneOf(int kind) => Kind[kind].Lane;

    /// <summary>A word for a label.</summary>
    public static string WordOf(int kind) => Kind[kind].Word;
}
