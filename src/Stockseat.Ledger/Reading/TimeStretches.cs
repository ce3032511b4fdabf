using Microsoft.Data.Sqlite;
using Stockseat.Answers.Entries;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Reading;

/// <summary>
/// Finds the ranges of serials in which entries of a time can be, by bisection. Entries are in the order of their serials, and somebody may have set the clock,
/// so each range between two steps or starts is bisected by itself. Within such a range no instant lies more than <see cref="Slack"/> before an earlier one, by
/// the rule that records steps. The result is a little too much, never too little: every entry is also compared by its own instant.
/// </summary>
internal static class TimeStretches
{
    /// <summary>How far instants may go back without a step, doubled for safety.</summary>
    private static readonly TimeSpan Slack = 2 * StepClock.Slack;

    /// <summary>The next range of serials in which entries of a time can be.</summary>
    /// <param name="connection">The ledger.</param>
    /// <param name="above">The serial above which the range lies.</param>
    /// <param name="last">The last serial that is wanted.</param>
    /// <param name="filter">The time, from and until.</param>
    /// <returns>The range, above the first serial and up to the second; null: there are no more.</returns>
    public static (long Above, long Last)? Next(SqliteConnection connection, long above, long last, EntryFilter filter)
    {
        var from = filter.From is { } f ? Text(f, -Slack) : null;
        var to = filter.To is { } t ? Text(t, Slack) : null;
        while (above < last)
        {
            var end = LedgerQueries.NextBorder(connection, above + 1) is { } border ? Math.Min(border - 1, last) : last;
            if (Within(connection, above, end, from, to) is { } found)
            {
                return found;
            }

            above = end;
        }

        return null;
    }

    private static (long Above, long Last)? Within(SqliteConnection connection, long above, long end, string? from, string? to)
    {
        if (from is not null && (LedgerQueries.InstantUpTo(connection, end) is not { } newest || newest.Serial <= above || Before(newest.At, from)))
        {
            return null; // Its newest entry is too old, and no entry before that is younger by more than the slack.
        }

        if (to is not null && LedgerQueries.InstantFrom(connection, above + 1) is { } oldest && oldest.Serial <= end && !Before(oldest.At, to))
        {
            return null;
        }

        var low = from is null ? above : LastBefore(connection, above, end, from);
        var high = to is null ? end : LastBefore(connection, above, end, to);
        return low < high ? (low, high) : null;
    }

    /// <summary>The last serial of a range whose instant is before a given one, by bisection.</summary>
    private static long LastBefore(SqliteConnection connection, long above, long end, string at)
    {
        var (before, after) = (above, end + 1);
        while (after - before > 1)
        {
            var middle = before + (after - before) / 2;
            if (LedgerQueries.InstantFrom(connection, middle) is { } found && found.Serial < after)
            {
                (before, after) = Before(found.At, at) ? (found.Serial, after) : (before, middle);
            }
            else
            {
                after = middle; // There is a gap.
            }
        }

        return before;
    }

    private static bool Before(string at, string other) => string.CompareOrdinal(at, other) < 0;

    /// <summary>An instant moved by the slack, in the form that entries have; when that is outside the calendar, the end of the calendar.</summary>
    private static string Text(DateTimeOffset at, TimeSpan by) => EntryTime.Text(
        by < TimeSpan.Zero && at - DateTimeOffset.MinValue < -by ? DateTimeOffset.MinValue
        : by > TimeSpan.Zero && DateTimeOffset.MaxValue - at < by ? DateTimeOffset.MaxValue : at + by);
}
