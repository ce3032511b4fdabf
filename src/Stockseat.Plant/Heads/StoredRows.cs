using Stockseat.Plant.Connecting;

namespace Stockseat.Plant.Heads;

/// <summary>Single rows of the plant store.</summary>
public sealed class StoredRows(PlantConnection connection)
{
    /// <summary>The newest entry of a ledger; null: the store has none of it.</summary>
    public async Task<(long Serial, byte[] Hash)?> Head(Guid ledger, CancellationToken token)
    {
        await using var command = connection.Command("SELECT serial, hash FROM stockseat.entry WHERE ledger = $1 ORDER BY serial DESC LIMIT 1", ledger);
        await using var reader = await command.ExecuteReaderAsync(token);
        return await reader.ReadAsync(token) ? (reader.GetInt64(0), reader.GetFieldValue<byte[]>(1)) : null;
    }

    /// <summary>The hash of an entry; null: the store does not have it.</summary>
    public async Task<byte[]?> HashOf(Guid ledger, long serial, CancellationToken token)
    {
        await using var command = connection.Command("SELECT hash FROM stockseat.entry WHERE ledger = $1 AND serial = $2", ledger, serial);
        return await command.ExecuteScalarAsync(token) as byte[];
    }
}
