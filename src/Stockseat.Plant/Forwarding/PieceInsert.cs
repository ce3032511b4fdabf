using Npgsql;
using NpgsqlTypes;
using Stockseat.Plant.Connecting;
using Stockseat.Plant.Heads;

namespace Stockseat.Plant.Forwarding;

/// <summary>
/// Stores a piece of a ledger, all of it or nothing. Stored again, after a reply was lost, it changes nothing: rows that are there already are compared.
/// </summary>
internal static class PieceInsert
{
    // Gone with its transaction, so that a pool between here and the server may hand the connection to somebody else.
    private const string Table = """
        CREATE TEMPORARY TABLE stockseat_piece (
          serial bigint, at timestamptz, cell text, kind text, fixture text, revision bigint, client text, tag text, body text, hash bytea
        ) ON COMMIT DROP
        """;

    private const string Columns = "serial, at, cell, kind, fixture, revision, client, tag, body, hash";

    private const string Insert =
        $"INSERT INTO stockseat.entry (ledger, {Columns}) SELECT $1, {Columns} FROM pg_temp.stockseat_piece ORDER BY serial ON CONFLICT DO NOTHING";

    private const string Differing = """
        SELECT min(p.serial) FROM pg_temp.stockseat_piece p LEFT JOIN stockseat.entry e ON e.ledger = $1 AND e.serial = p.serial
        WHERE e.hash IS DISTINCT FROM p.hash OR e.body IS DISTINCT FROM p.body
        """;

    /// <summary>Stores the rows.</summary>
    /// <param name="connection">The store.</param>
    /// <param name="ledger">The ledger's id.</param>
    /// <param name="before">The entry that the store ends with, and its hash; null: it has none.</param>
    /// <param name="rows">The rows after it.</param>
    /// <param name="token">Ends it; then nothing is stored, or all of it.</param>
    /// <returns>The first serial at which the store has something else; null: the rows are stored.</returns>
    /// <exception cref="StoreChangedException">The store does not end as it did: look again.</exception>
    public static async Task<long?> Run(
        PlantConnection connection, Guid ledger, (long Serial, byte[] Hash)? before, IReadOnlyList<SentEntry> rows, CancellationToken token)
    {
        await using var transaction = await connection.Open.BeginTransactionAsync(token);
        if (before is var (serial, hash) && await new StoredRows(connection).HashOf(ledger, serial, token) is var stored
            && (stored is null || !stored.AsSpan().SequenceEqual(hash)))
        {
            throw new StoreChangedException(serial);
        }

        await Execute(connection, Table, token);
        await Copy(connection, rows, token);
        await using var insert = connection.Command(Insert, ledger);
        if (await insert.ExecuteNonQueryAsync(token) < rows.Count)
        {
            await using var compare = connection.Command(Differing, ledger);
            if (await compare.ExecuteScalarAsync(token) is long differs)
            {
                return differs;
            }
        }

        await transaction.CommitAsync(token);
        return null;
    }

    private static async Task Copy(PlantConnection connection, IReadOnlyList<SentEntry> rows, CancellationToken token)
    {
        await using var copy = await connection.Open.BeginBinaryImportAsync($"COPY pg_temp.stockseat_piece ({Columns}) FROM STDIN (FORMAT BINARY)", token);
        foreach (var row in rows)
        {
            await copy.StartRowAsync(token);
            await copy.WriteAsync(row.Serial, NpgsqlDbType.Bigint, token);
            await copy.WriteAsync(row.At, NpgsqlDbType.TimestampTz, token);
            await Text(copy, row.Cell, token);
            await Text(copy, row.Kind, token);
            await Text(copy, row.Fixture, token);
            await (row.Revision is { } revision ? copy.WriteAsync(revision, NpgsqlDbType.Bigint, token) : copy.WriteNullAsync(token));
            await Text(copy, row.Client, token);
            await Text(copy, row.Tag, token);
            await copy.WriteAsync(row.Body, NpgsqlDbType.Text, token); // The bytes as they are: the server checks that they are UTF-8.
            await copy.WriteAsync(row.Hash, NpgsqlDbType.Bytea, token);
        }

        await copy.CompleteAsync(token);
    }

    private static Task Text(NpgsqlBinaryImporter copy, string? text, CancellationToken token) =>
        text is null ? copy.WriteNullAsync(token) : copy.WriteAsync(text, NpgsqlDbType.Text, token);

    private static async Task Execute(PlantConnection connection, string sql, CancellationToken token)
    {
        await using var command = connection.Command(sql);
        await command.ExecuteNonQueryAsync(token);
    }
}
