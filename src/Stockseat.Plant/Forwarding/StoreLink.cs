using Stockseat.Plant.Connecting;
using Stockseat.Plant.Heads;
using Stockseat.Plant.Schema;

namespace Stockseat.Plant.Forwarding;

/// <summary>One connection of the forwarder, and what is known as long as it lasts: nothing that was known before it is believed.</summary>
internal sealed class StoreLink : IAsyncDisposable
{
    private readonly PlantConnection _connection;
    private readonly StoredRows _rows;

    private StoreLink(PlantConnection connection) => (_connection, _rows) = (connection, new(connection));

    /// <summary>The closed ledgers that were found to be stored completely, by their files' names without a mark of an unfinished roll.</summary>
    public HashSet<string> Complete { get; } = new(StringComparer.Ordinal);

    public static async Task<StoreLink> Open(PlantAddress address, CancellationToken token)
    {
        var connection = await PlantConnection.To(address, token);
        try
        {
            await Preparation.Require(connection, address, token);
            return new(connection);
        }
        catch
        {
            await connection.DisposeAsync();
            throw;
        }
    }

    /// <summary>The last entry that the store and a ledger both have, or where they differ.</summary>
    public async Task<(long Above, LedgerDifference? Difference)> Find(LocalLedger local, CancellationToken token)
    {
        var found = await LedgerPlace.Find(local, _rows, token);
        if (found.Difference is { } difference)
        {
            await Record(local, difference, token);
        }

        return found;
    }

    /// <summary>Stores a piece after an entry.</summary>
    public async Task<LedgerDifference?> Store(LocalLedger local, long above, IReadOnlyList<SentEntry> rows, CancellationToken token)
    {
        (long, byte[])? before = above > 0 && local.HashOf(above) is { } hash ? (above, hash) : null;
        if (await PieceInsert.Run(_connection, local.Id, before, rows, token) is not { } serial)
        {
            return null;
        }

        var difference = await LedgerPlace.Difference(local, _rows, serial, token);
        await Record(local, difference, token);
        return difference;
    }

    public ValueTask DisposeAsync() => _connection.DisposeAsync();

    /// <summary>Leaves the finding in the store, where everybody sees it.</summary>
    private async Task Record(LocalLedger local, LedgerDifference difference, CancellationToken token)
    {
        var body = local.BodyOf(difference.Serial)?.Replace("\0", "", StringComparison.Ordinal); // The server can hold no such character.
        await using var command = _connection.Command(
            "INSERT INTO stockseat.fork (ledger, serial, stored_hash, sent_hash, sent_body, host) VALUES ($1, $2, $3, $4, nullif($5, ''), $6)"
            + " ON CONFLICT DO NOTHING",
            difference.Ledger, difference.Serial, Convert.FromHexString(difference.Stored), Convert.FromHexString(difference.Sent), body ?? "",
            Environment.MachineName);
        await command.ExecuteNonQueryAsync(token);
    }
}
