using System.Text.Json;
using Microsoft.Data.Sqlite;
using Npgsql;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Roll;
using Stockseat.Audit.Copying;
using Stockseat.Ledger.Store;
using Stockseat.Plant.Connecting;
using Stockseat.Plant.Heads;

namespace Stockseat.Plant.Evidence;

/// <summary>
/// Makes a data folder from the plant store: a ledger with the closed ledgers before it. What reads, verifies, replays and reviews a folder does the same with
/// it, so the verdicts are the same.
/// </summary>
/// <param name="connection">The store.</param>
/// <param name="address">Where it is.</param>
/// <param name="told">Takes the number of entries so far, and of all that are known to come; null: nobody wants to know.</param>
public sealed class StoredCopy(PlantConnection connection, PlantAddress address, Action<long, long>? told = null)
{
    private const int Piece = 5000;

    private const string Rows =
        $"SELECT {StoredRow.Columns} FROM stockseat.entry WHERE ledger = $1 AND serial > $2 AND serial <= $3"
        + " ORDER BY serial LIMIT $4";

    private long _done;
    private long _all;

    /// <summary>Fills an empty folder, up to the newest entries that the store had.</summary>
    /// <param name="ledger">The ledger that becomes the current one.</param>
    /// <param name="all">All ledgers of the store.</param>
    /// <param name="folder">The folder.</param>
    /// <param name="token">Ends it.</param>
    /// <exception cref="PlantException">The store can't be read.</exception>
    public Task Make(StoredLedger ledger, IReadOnlyList<StoredLedger> all, string folder, CancellationToken token) => PlantException.Around(address, async () =>
    {
        var seen = new HashSet<Guid>();
        var path = Path.Combine(folder, LedgerFile.Name);
        for (var next = ledger; next is not null && seen.Add(next.Ledger);)
        {
            _all += next.Last - next.First + 1;
            var follows = await Fill(next, path, token);
            next = all.FirstOrDefault(l => l.Ledger == follows);
            if (next is not null)
            {
                path = ClosedPath(folder, next);
            }
        }

        return true;
    });

    /// <summary>The path of a closed ledger in a data folder, whose folder is made.</summary>
    internal static string ClosedPath(string folder, StoredLedger ledger) => Path.Combine(
        Directory.CreateDirectory(Path.Combine(folder, ClosedLedgers.Folder)).FullName, $"{ledger.First}-{ledger.Ledger}.db");

    /// <summary>Writes one ledger into a file; returns the id of the ledger before it.</summary>
    private async Task<Guid?> Fill(StoredLedger ledger, string path, CancellationToken token)
    {
        using var target = LedgerFile.Make(path);
        LedgerFile.Execute(target, "PRAGMA synchronous=OFF"); // Nobody keeps this file.
        using var insert = new RowInsert(target);
        Guid? follows = null;
        for (var above = 0L; above < ledger.Last;)
        {
            LedgerFile.Execute(target, "BEGIN");
            var first = above == 0;
            var (last, body) = await Fill(insert, ledger, above, token);
            LedgerFile.Execute(target, "COMMIT");
            follows = first && body is not null ? Follows(body) : follows;
            above = last ?? ledger.Last;
        }

        RequestQueries.MakeAnew(target, ledger.Last);
        return follows;
    }

    /// <summary>
    /// Writes a piece; returns its last serial, null when there was no row, and the body of its first row where that ends or begins a ledger.
    /// </summary>
    private async Task<(long? Last, string? Body)> Fill(RowInsert insert, StoredLedger ledger, long above, CancellationToken token)
    {
        await using var command = connection.Command(Rows, ledger.Ledger, above, ledger.Last, Piece);
        await using var reader = await command.ExecuteReaderAsync(token);
        long? last = null;
        string? body = null;
        var values = new object[reader.FieldCount];
        while (await reader.ReadAsync(token))
        {
            StoredRow.Read(reader, values);
            insert.Run(values);
            body = last is null && (string)values[StoredRow.Kind] == Kinds.RolledOver ? (string)values[StoredRow.Body] : body;
            last = (long)values[StoredRow.Serial];
            _done++;
        }

        told?.Invoke(_done, _all);
        return (last, body);
    }

    /// <summary>The ledger before the one that begins with a body; null: it is the first, or the body can't be read.</summary>
    internal static Guid? Follows(string body)
    {
        try
        {
            using var json = JsonDocument.Parse(body);
            return json.RootElement.TryGetProperty("follows", out var follows) && follows.TryGetProperty("ledger", out var id)
                && Guid.TryParse(id.GetString(), out var ledger) ? ledger : null;
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            return null; // A verification reports what is wrong with it.
        }
    }
}
