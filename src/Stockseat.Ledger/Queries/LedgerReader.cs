using Microsoft.Data.Sqlite;
using Stockseat.Ledger.Writing;

namespace Stockseat.Ledger.Queries;

/// <summary>Reads the ledger of a data folder, beside a running service or where it lies; changes nothing.</summary>
public sealed class LedgerReader : IDisposable
{
    private readonly SqliteConnection _connection;

    private LedgerReader(SqliteConnection connection) => _connection = connection;

    /// <summary>The last serial; 0 in an empty ledger.</summary>
    public long Last => LedgerQueries.Last(_connection);

    /// <summary>Opens it.</summary>
    /// <param name="folder">The data folder.</param>
    /// <exception cref="FileNotFoundException">There is no ledger in the folder.</exception>
    public static LedgerReader Open(string folder) => new(LedgerFile.OpenReader(folder));

    /// <summary>One entry; null when there is none of that serial.</summary>
    public EntryRow? Find(long serial) => LedgerQueries.Find(_connection, serial);

    /// <summary>The newest entries, in order, of the last <see cref="LedgerQueries.LongestScan"/>.</summary>
    public List<EntryRow> Newest(int count, EntryFilter? filter = null) => LedgerQueries.Newest(_connection, count, filter);

    /// <summary>Entries above a serial and up to another one, in order: a read that ends soon whatever the filter.</summary>
    /// <param name="above">The serial that they lie above.</param>
    /// <param name="last">The last serial that is looked at.</param>
    /// <param name="count">How many at most.</param>
    /// <param name="filter">Which.</param>
    public EntryPiece Piece(long above, long last, int count, EntryFilter? filter)
    {
        if (filter is not ({ From: not null } or { To: not null }))
        {
            return LedgerQueries.Piece(_connection, above, last, count, filter);
        }

        var rows = new List<EntryRow>();
        for (var left = (long)LedgerQueries.LongestScan; above < last && left > 0 && rows.Count < count;)
        {
            if (TimeStretches.Next(_connection, above, last, filter) is not var (low, high))
            {
                return new(rows, last);
            }

            var piece = LedgerQueries.Piece(_connection, low, high - left > low ? low + left : high, count - rows.Count, filter);
            rows.AddRange(piece.Rows);
            (left, above) = (left - (piece.End - low), piece.End);
        }

        return new(rows, Math.Max(above, 0));
    }

    /// <inheritdoc/>
    public void Dispose() => _connection.Dispose();
}
