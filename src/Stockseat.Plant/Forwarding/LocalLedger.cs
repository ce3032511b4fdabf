using System.Globalization;
using System.Text;
using System.Text.Json;
using Microsoft.Data.Sqlite;
using Stockseat.Answers.Entries;
using Stockseat.Ledger.Store;

namespace Stockseat.Plant.Forwarding;

/// <summary>
/// A ledger of the data folder, open for reading. Each read is short and ends before anything is sent, so that nothing keeps the log from being copied into the
/// database, and no answer waits.
/// </summary>
internal sealed class LocalLedger : IDisposable
{
    /// <summary>How many rows one read takes.</summary>
    public const int Rows = 2000;

    /// <summary>After how many bytes a read ends earlier; a larger row is a piece of its own.</summary>
    private const int Bytes = 4 << 20;

    private readonly SqliteConnection _connection;
    private readonly EntryScan _scan;

    private LocalLedger(SqliteConnection connection, Guid id) => (_connection, _scan, Id) = (connection, EntryScan.Upwards(connection), id);

    public Guid Id { get; }

    /// <summary>The last serial now.</summary>
    public long Last => LedgerQueries.Last(_connection);

    /// <summary>The current ledger of a data folder; null: it has no entry yet.</summary>
    public static LocalLedger? Current(string folder) => Open(LedgerFile.OpenReader(folder), LedgerFile.Name);

    /// <summary>A closed ledger.</summary>
    /// <exception cref="UnsendableException">It can't be read.</exception>
    public static LocalLedger? Closed(string path)
    {
        try
        {
            return Open(LedgerFile.OpenClosed(path), Path.GetFileName(path));
        }
        catch (Exception e) when (ClosedLedgers.IsUnreadable(e))
        {
            throw new UnsendableException($"the closed ledger {Path.GetFileName(path)} can't be read: {e.Message.TrimEnd('.')}; put a copy of it there", e);
        }
    }

    /// <summary>The hash stored with an entry; null: there is no such entry.</summary>
    public byte[]? HashOf(long serial) => LedgerQueries.HashOf(_connection, serial);

    /// <summary>The body of an entry; null: there is no such entry.</summary>
    public string? BodyOf(long serial) => LedgerQueries.Find(_connection, serial)?.Body;

    /// <summary>The next rows above a serial and up to another one, at most a given number.</summary>
    /// <exception cref="UnsendableException">The first of them has something that the store can't hold.</exception>
    public List<SentEntry> Piece(long above, long last, int most)
    {
        var rows = new List<SentEntry>();
        var bytes = 0;
        _scan.Begin(above + 1, last, most);
        try
        {
            while (bytes < Bytes && _scan.Step(out var row))
            {
                rows.Add(Sent(row));
                bytes += row.Body.Length;
            }
        }
        catch (UnsendableException) when (rows.Count > 0)
        {
            // Those before it are sent first.
        }
        finally
        {
            _scan.End();
        }

        return rows;
    }

    public void Dispose()
    {
        _scan.Dispose();
        _connection.Dispose();
    }

    private static LocalLedger? Open(SqliteConnection connection, string name)
    {
        try
        {
            if (LedgerQueries.First(connection) is null)
            {
                connection.Dispose();
                return null;
            }

            return Guid.TryParseExact(LedgerQueries.LedgerId(connection), "D", out var id) ? new(connection, id)
                : throw new UnsendableException($"the first entry of {name} has no ledger id; verify it with stockseat ledger verify");
        }
        catch (JsonException e)
        {
            connection.Dispose();
            throw new UnsendableException($"the first entry of {name} can't be read: {e.Message.TrimEnd('.')}; verify it with stockseat ledger verify", e);
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    private static SentEntry Sent(in EntryBytes row)
    {
        if (row.Mistyped is { } column)
        {
            throw Unsendable(row.Serial, $"its {column} has a type that a ledger does not have");
        }

        return EntryTime.TryParse(Encoding.UTF8.GetString(row.At), out var at)
            ? new(row.Serial, at.UtcDateTime, CellText.Of(row.Body), Text(row.Kind), row.HasFixture ? Text(row.Fixture) : null,
                row.HasRevision ? row.Revision : null, row.HasClient ? Text(row.Client) : null, row.HasTag ? Text(row.Tag) : null,
                row.Body.ToArray(), row.Hash.ToArray())
            : throw Unsendable(row.Serial, "its column at is no instant of an entry");
    }

    private static string Text(ReadOnlySpan<byte> bytes) => Encoding.UTF8.GetString(bytes);

    private static UnsendableException Unsendable(long serial, string why) =>
        new(string.Create(CultureInfo.InvariantCulture, $"entry {serial} can't be sent: {why}; verify the ledger with stockseat ledger verify"));
}
