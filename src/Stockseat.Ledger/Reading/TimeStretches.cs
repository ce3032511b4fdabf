using Microsoft.Data.Sqlite;
using Stockseat.Answers.Entries;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Reading;

/// <summary>
/// Finds by bisecting serials where entries of a time can be. Entries are in the order of their serials, and somebody may have set the clock: so each stretch
/// between two steps or starts is bisected for itself. Within one no instant lies more than <see cref="Slack"/> before an earlier one, by the rule that
/// records steps. What is left is a little too much, never too little: each entry is compared by its own instant besides.
/// </summary>
internal static class TimeStretches
{
    /// <summary>How far instants may go back without a step, and as much again.</summary>
    private static readonly TimeSpan Slack = 2 * StepClock.Slack;

    /// <summary>The next serials where entries of a time can be.</summary>
    /// <param name="connection">The ledger.</param>
    /// <param name="above">The serial that they lie above.</param>
    /// <param name="last">The last serial that is wanted.</param>
    /// <param name="filter">From when, until when.</param>
    /// <returns>They lie above the one, and up to the other; null: there are no more.</returns>
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
            return null; // Also its newest is too old, and none before it is younger by more than the slack.
        }

        if (to is not null && LedgerQueries.InstantFrom(connection, above + 1) is { } oldest && oldest.Serial <= end && !Before(oldest.At, to))
        {
            return null;
        }

        var low = from is null ? above : LastBefore(connection, above, end, from);
        var high = to is null ? end : LastBefore(connection, above, end, to);
        return low < high ? (low, high) : null;
    }

    /// <summary>The last serial of a stretch whose instant is before another one, by bisecting.</summary>
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
                after = middle; // a gap
            }
        }

        return before;
    }

    private static bool Before(string at, string other) => string.CompareOrdinal(at, other) < 0;

    /// <summary>An instant moved by the slack, as entries have it; moved out of the calendar: its end.</summary>
    private static string Text(DateTimeOffset at, TimeSpan by) => EntryTime.Text(
        by < TimeSpan.Zero && at - DateTimeOffset.MinValue < -by ? DateTimeOffset.MinValue
        : by > TimeSpan.Zero && DateTimeOffset.MaxValue - at < by ? DateTimeOffset.MaxValue : at + by);
}
