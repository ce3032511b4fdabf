using Npgsql;
using Stockseat.Plant.Connecting;
using Stockseat.Plant.Schema;

namespace Stockseat.Plant.Heads;

/// <summary>Lists the ledgers in the plant store.</summary>
public static class StoredLedgers
{
    /// <summary>All ledgers, by cell and first serial.</summary>
    /// <exception cref="PlantException">The store can't be read.</exception>
    public static async Task<IReadOnlyList<StoredLedger>> All(PlantConnection connection, PlantAddress address, CancellationToken token) =>
        await PlantException.Around(address, async () =>
        {
            await Preparation.Require(connection, address, token);
            await using var command = connection.Command(
                "SELECT ledger, cell, first_serial, last_serial, last_at, last_stored, closed, differs_from, differs_since,"
                + " fixture, revision, verified_to, verified_at, intact FROM stockseat.cells"
                + " ORDER BY cell NULLS LAST, first_serial, ledger");
            await using var reader = await command.ExecuteReaderAsync(token);
            var found = new List<StoredLedger>();
            while (await reader.ReadAsync(token))
            {
                found.Add(new(
                    reader.GetGuid(0), reader.IsDBNull(1) ? null : reader.GetString(1), reader.GetInt64(2), reader.GetInt64(3), Instant(reader, 4),
                    Instant(reader, 5), reader.GetBoolean(6), reader.IsDBNull(7) ? null : (reader.GetInt64(7), Instant(reader, 8)))
                {
                    InForce = reader.IsDBNull(9) ? null : (reader.GetString(9), reader.GetInt64(10)),
                    Verified = reader.IsDBNull(11) ? null : (reader.GetBoolean(13), reader.GetInt64(11), Instant(reader, 12)),
                });
            }

            return found;
        });

    internal static DateTimeOffset Instant(NpgsqlDataReader reader, int column) => new(reader.GetDateTime(column), TimeSpan.Zero);
}
