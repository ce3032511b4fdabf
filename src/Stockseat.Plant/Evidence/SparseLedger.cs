using System.Globalization;
using Npgsql;
using Stockseat.Answers.Entries;
using Stockseat.Audit.Copying;
using Stockseat.Ledger.Store;
using Stockseat.Plant.Connecting;
using Stockseat.Plant.Heads;

namespace Stockseat.Plant.Evidence;

/// <summary>Some rows of a ledger in the store, gathered one query after the other, and written into a ledger's file.</summary>
internal sealed class SparseLedger(PlantConnection connection, StoredLedger ledger)
{
    /// <summary>How many places of a range are looked at together.</summary>
    private const int Probes = 64;

    private readonly SortedDictionary<long, object[]> _rows = [];

    public StoredLedger Ledger => ledger;

    /// <summary>The rows so far, in order.</summary>
    public IEnumerable<object[]> Rows => _rows.Values;

    public object[]? Row(long serial) => _rows.GetValueOrDefault(serial);

    /// <summary>Adds the rows for which a condition holds; the first of its parameters is $2.</summary>
    public async Task Add(string condition, CancellationToken token, params object[] parameters)
    {
        await using var command = connection.Command(
            $"SELECT {StoredRow.Columns} FROM stockseat.entry WHERE ledger = $1 AND {condition}", [ledger.Ledger, .. parameters]);
        await using var reader = await command.ExecuteReaderAsync(token);
        while (await reader.ReadAsync(token))
        {
            var values = new object[reader.FieldCount];
            StoredRow.Read(reader, values);
            _rows.TryAdd((long)values[StoredRow.Serial], values);
        }
    }

    /// <summary>Adds rows by their serials.</summary>
    public async Task Add(IEnumerable<long> serials, CancellationToken token)
    {
        var list = string.Join(',', serials.Where(s => s >= ledger.First && s <= ledger.Last && !_rows.ContainsKey(s)).Distinct());
        if (list.Length > 0)
        {
            await Add($"serial IN ({list})", token);
        }
    }

    /// <summary>One number that SQL finds in this ledger, whose id is $1; null: it finds none.</summary>
    public async Task<long?> Number(string sql, CancellationToken token, params object[] parameters)
    {
        await using var command = connection.Command(sql, [ledger.Ledger, .. parameters]);
        return await command.ExecuteScalarAsync(token) as long?;
    }

    /// <summary>The last serial of a range whose instant is before a given one. Within the range, instants never go back by more than a little.</summary>
    /// <param name="above">The serial above which the range lies.</param>
    /// <param name="last">Its last serial.</param>
    /// <param name="at">The instant.</param>
    /// <param name="token">Ends it.</param>
    public async Task<long> LastBefore(long above, long last, DateTimeOffset at, CancellationToken token)
    {
        var (before, after) = (above, last + 1);
        while (after - before > 1)
        {
            var (low, high) = (before, after);
            await using var command = connection.Command(
                "SELECT f.serial, f.at FROM generate_series($2, $3, $4) AS g CROSS JOIN LATERAL ("
                + "SELECT serial, at FROM stockseat.entry WHERE ledger = $1 AND serial >= g AND serial < $5 ORDER BY serial LIMIT 1) AS f ORDER BY 1",
                ledger.Ledger, low + 1, high - 1, Math.Max(1, (high - low) / Probes), high);
            await using var reader = await command.ExecuteReaderAsync(token);
            after = Math.Min(high, low + 1); // There are no rows any more.
            while (await reader.ReadAsync(token))
            {
                var serial = reader.GetInt64(0);
                if (StoredLedgers.Instant(reader, 1) >= at)
                {
                    after = serial;
                    break;
                }

                (before, after) = (serial, high);
            }
        }

        return before;
    }

    /// <summary>Writes the rows into a new file.</summary>
    public void Write(string path)
    {
        using var target = LedgerFile.Make(path);
        LedgerFile.Execute(target, "PRAGMA synchronous=OFF"); // Nobody keeps this file.
        using var insert = new RowInsert(target);
        LedgerFile.Execute(target, "BEGIN");
        foreach (var row in Rows)
        {
            insert.Run(row);
        }

        LedgerFile.Execute(target, "COMMIT");
        RequestQueries.MakeAnew(target, ledger.Last);
    }
}
