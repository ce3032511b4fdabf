using Microsoft.Data.Sqlite;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.State;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Reading;

/// <summary>
/// Reads the ledger of a data folder, beside a running service or without one, and the closed ledgers before it that are still there; changes nothing.
/// </summary>
public sealed class LedgerReader : IDisposable
{
    private readonly SqliteConnection _current;
    private readonly IReadOnlyList<(long First, string Path)> _closed;

    /// <summary>The closed ledger that was read last: reading moves from one ledger to the next.</summary>
    private (string Path, SqliteConnection Connection)? _open;

    private LedgerReader(string folder)
    {
        _current = LedgerFile.OpenReader(folder);
        First = LedgerQueries.First(_current)?.Serial ?? 1;
        _closed = [.. ClosedLedgers.Of(folder).Where(f => f.First < First)];
    }

    /// <summary>The first serial of the current ledger; 1 when it is empty.</summary>
    public long First { get; }

    /// <summary>The last serial; 0 in an empty ledger.</summary>
    public long Last => LedgerQueries.Last(_current);

    /// <summary>Opens a ledger.</summary>
    /// <param name="folder">The data folder.</param>
    /// <exception cref="FileNotFoundException">There is no ledger in the folder.</exception>
    public static LedgerReader Open(string folder) => new(folder);

    /// <summary>One entry; null when there is no entry of that serial, or when it is in a ledger that was moved away.</summary>
    public EntryRow? Find(long serial) => LedgerQueries.Find(At(serial - 1).Connection, serial);

    /// <summary>The newest entries among the last <see cref="LedgerQueries.LongestScan"/>, in order.</summary>
    public List<EntryRow> Newest(int count, EntryFilter? filter = null)
    {
        var above = Last - LedgerQueries.LongestScan;
        return Backwards(count, (connection, most) => [.. LedgerQueries.Newest(connection, most, filter).Where(r => r.Serial > above)]);
    }

    /// <summary>The newest rechecks of a fixture below a serial, in order.</summary>
    public List<EntryRow> Rechecks(string fixture, long below, int count) =>
        Backwards(count, (connection, most) => LedgerQueries.Rechecks(connection, fixture, below, most));

    /// <summary>Entries above a serial and up to another one, in order. Each call reads only a bounded piece, whatever the filter.</summary>
    /// <param name="above">The serial above which they lie.</param>
    /// <param name="last">The last serial that is read.</param>
    /// <param name="count">The most entries.</param>
    /// <param name="filter">Which entries are wanted.</param>
    public EntryPiece Piece(long above, long last, int count, EntryFilter? filter)
    {
        var rows = new List<EntryRow>();
        for (var left = (long)LedgerQueries.LongestScan; above < last && left > 0 && rows.Count < count;)
        {
            var (connection, end) = At(above);
            if (connection != _current && LedgerQueries.Last(connection) <= above)
            {
                above = Math.Min(last, end); // The entries up to there were moved away.
                continue;
            }

            if (Where(connection, above, Math.Min(last, end), filter) is not var (low, high))
            {
                above = Math.Min(last, end);
                continue;
            }

            var piece = LedgerQueries.Piece(connection, low, high - left > low ? low + left : high, count - rows.Count, filter);
            rows.AddRange(piece.Rows);
            (left, above) = (left - (piece.End - low), piece.End);
        }

        return new(rows, above);
    }

    /// <summary>The newest entries below a serial, the newest first. Each call reads only a bounded piece, whatever the filter.</summary>
    /// <returns>The entries, and the serial down to which everything was read: up to 1 when there are no more.</returns>
    public EntryPiece PieceBelow(long below, int count, EntryFilter? filter)
    {
        var (rows, left) = (new List<EntryRow>(), (long)LedgerQueries.LongestScan);
        var parts = filter is { From: not null } or { To: not null } ? Stretches(filter) : [(0, Last)];
        foreach (var (least, last) in parts.Reverse())
        {
            below = Math.Min(below, last + 1);
            while (below > least + 1 && _closed.Select(c => c.First).Append(First).LastOrDefault(f => f < below) is > 0 and var first)
            {
                if (left == 0 || rows.Count == count)
                {
                    return new(rows, below);
                }

                var above = Math.Max(Math.Max(least, first - 1), below - 1 - left);
                rows.AddRange(LedgerQueries.Downwards(At(first - 1).Connection, above, below - 1, count - rows.Count, filter));
                (left, below) = (left - (below - 1 - above), rows.Count == count ? rows[^1].Serial : above + 1);
            }
        }

        return new(rows, 1);
    }

    /// <summary>The ranges of serials in which entries of a time can be, in order: a little too much, never too little.</summary>
    /// <param name="times">The time, from and until.</param>
    public IReadOnlyList<(long Above, long Last)> Stretches(EntryFilter times)
    {
        var found = new List<(long, long)>();
        for (var (above, last) = (0L, Last); above < last;)
        {
            var (connection, end) = At(above);
            var stop = Math.Min(last, end);
            if (TimeStretches.Next(connection, above, stop, times) is var (low, high))
            {
                found.Add((low, high));
                above = high;
            }
            else
            {
                above = stop;
            }
        }

        return found;
    }

    /// <summary>How many entries of a time lie between two serials.</summary>
    public long Count((long Above, long Last) serials, EntryFilter times) => Parts(serials).Sum(p => WindowQueries.Count(p.Connection, p.Above, p.Last, times));

    /// <summary>The steps of the clock between two serials, in order.</summary>
    public IEnumerable<EntryRow> ClockSteps(long above, long last) =>
        Parts((above, last)).SelectMany(p => WindowQueries.ClockSteps(p.Connection, p.Above, p.Last));

    /// <summary>The hash stored with an entry; null when there is none.</summary>
    public byte[]? HashOf(long serial) => LedgerQueries.HashOf(At(serial - 1).Connection, serial);

    /// <summary>The newest entry of a time within a range of serials; null when there is none.</summary>
    public EntryRow? Newest((long Above, long Last) stretch, EntryFilter times) =>
        WindowQueries.Newest(At(stretch.Above).Connection, stretch.Above, stretch.Last, times);

    /// <summary>The id of the current ledger; null when its first entry has none.</summary>
    /// <exception cref="System.Text.Json.JsonException">The body of that entry can't be read.</exception>
    public string? LedgerId => LedgerQueries.LedgerId(_current);

    /// <summary>The situation right after an entry, by the ledger only: the fixtures' folders are not known.</summary>
    public Situation SituationAfter(long serial) => SituationReader.Read(At(serial - 1).Connection, serial, new AdoptedRevisions().Read);

    /// <summary>Looks at rows from a serial down to another one, also in closed ledgers, as long as more are wanted.</summary>
    public void Downwards(long from, long least, RowLook look)
    {
        foreach (var connection in Below(from + 1, least))
        {
            using var scan = EntryScan.Downwards(connection);
            scan.Begin(least, from, long.MaxValue);
            while (scan.Step(out var row))
            {
                if (!look(row))
                {
                    scan.End();
                    return;
                }
            }
        }
    }

    /// <summary>The newest entry of a fixture and kind up to a serial and not below another one, in all ledgers of that range; null: none.</summary>
    public EntryRow? Newest(string fixture, string kind, long upTo, long least) =>
        Below(upTo + 1, least).Select(connection => WindowQueries.NewestOf(connection, fixture, kind, upTo)).FirstOrDefault(row => row is not null);

    /// <summary>The newest entries of a fixture and kind between two serials, in order.</summary>
    public IEnumerable<EntryRow> Of(string fixture, string kind, long above, long below, int count) =>
        Below(below, above + 1).SelectMany(connection => WindowQueries.Of(connection, fixture, kind, above, below, count)).Take(count).Reverse();

    /// <summary>The newest entry with a request id of a client, in the current ledger and in the one before it; null: none is remembered.</summary>
    public long? SerialOf(string client, string request) => Below(long.MaxValue, First - 1)
        .Select(connection => RequestQueries.Newest(connection, client, request)).FirstOrDefault(serial => serial is not null);

    /// <summary>The first confirmations of a fixture above a serial: in the ledger that has the entries after that serial, and in the current one.</summary>
    public IEnumerable<EntryRow> Confirmations(string fixture, long above, int count) => new[] { At(above).Connection, _current }.Distinct()
        .SelectMany(connection => WindowQueries.Confirmations(connection, fixture, above, count));

    /// <inheritdoc/>
    public void Dispose()
    {
        _open?.Connection.Dispose();
        _current.Dispose();
    }

    /// <summary>The ledgers with entries below a serial and not below another one, the newest first.</summary>
    private IEnumerable<SqliteConnection> Below(long below, long least)
    {
        foreach (var first in _closed.Select(c => c.First).Append(First).Reverse())
        {
            if (first < below && Readable(first) is { } connection)
            {
                yield return connection;
            }

            if (first <= least)
            {
                yield break;
            }
        }
    }

    /// <summary>The ledger that begins with a serial; null when it is a closed one that can't be read: that must not stop the current one.</summary>
    private SqliteConnection? Readable(long first)
    {
        try
        {
            return At(first - 1).Connection;
        }
        catch (InvalidDataException)
        {
            return null;
        }
    }

    /// <summary>A range of serials in parts that short reads can handle, each within one ledger.</summary>
    private IEnumerable<(SqliteConnection Connection, long Above, long Last)> Parts((long Above, long Last) serials)
    {
        for (var above = serials.Above; above < serials.Last;)
        {
            var (connection, end) = At(above);
            var last = Math.Min(Math.Min(serials.Last, end), above + LedgerQueries.LongestScan);
            yield return (connection, above, last);
            above = last;
        }
    }

    private static (long Above, long Last)? Where(SqliteConnection connection, long above, long last, EntryFilter? filter) =>
        filter is { From: not null } or { To: not null } ? TimeStretches.Next(connection, above, last, filter) : (above, last);

    private List<EntryRow> Backwards(int count, Func<SqliteConnection, int, List<EntryRow>> newest)
    {
        var rows = newest(_current, count);
        foreach (var (_, path) in _closed.Reverse())
        {
            if (rows.Count >= count)
            {
                break;
            }

            rows.InsertRange(0, newest(Closed(path), count - rows.Count));
        }

        return rows;
    }

    /// <summary>The ledger with the entries after a serial, and the last serial that it can have.</summary>
    private (SqliteConnection Connection, long End) At(long above)
    {
        if (above >= First - 1 || _closed.Count == 0)
        {
            return (_current, long.MaxValue);
        }

        var next = 1;
        while (next < _closed.Count && _closed[next].First - 1 <= above)
        {
            next++;
        }

        return (Closed(_closed[next - 1].Path), (next < _closed.Count ? _closed[next].First : First) - 1);
    }

    private SqliteConnection Closed(string path)
    {
        if (_open is { } open && open.Path == path)
        {
            return open.Connection;
        }

        _open?.Connection.Dispose();
        _open = null;
        var connection = TryOpen(path, out var why) ?? (ClosedLedgers.IsLeaving(path) ? TryOpen(ClosedLedgers.Ended(path), out why) : null)
            ?? throw new InvalidDataException(
                $"{Path.GetFileName(path)} among the closed ledgers can't be read: {why!.Message.TrimEnd('.')}; put a copy of it there, or move it away", why);
        _open = (path, connection);
        return connection;
    }

    /// <summary>Opens a closed ledger. Its name can lose the mark of an unfinished roll at any moment, even while it is being opened.</summary>
    private static SqliteConnection? TryOpen(string path, out SqliteException? why)
    {
        try
        {
            why = null;
            return LedgerFile.OpenClosed(path);
        }
        catch (SqliteException e)
        {
            why = e;
            return null;
        }
    }
}
