using Npgsql;
using NpgsqlTypes;
using Stockseat.Ledger.Store;

namespace Stockseat.Load.Clients;

/// <summary>Clients of PostgreSQL, each of which inserts one row the size of an entry and commits it before the next.</summary>
internal sealed class InsertLoad : ILoad
{
    private const int Clients = 64;

    private const string Table = """
        CREATE TABLE entry (
          serial bigint PRIMARY KEY, at text NOT NULL, kind text NOT NULL, fixture text, revision integer,
          client text, tag text, body text NOT NULL, hash bytea NOT NULL)
        """;

    private const string Insert =
        "INSERT INTO entry (serial, at, kind, fixture, revision, client, tag, body, hash) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9)";

    private readonly List<NpgsqlCommand> _inserts = [];
    private long _serial;

    private InsertLoad()
    {
    }

    /// <summary>Connects all clients and makes the table.</summary>
    /// <param name="server">The connection string.</param>
    /// <param name="like">The entry that all rows resemble.</param>
    /// <param name="token">Gives up.</param>
    public static async Task<InsertLoad> Connect(string server, EntryRow like, CancellationToken token)
    {
        var load = new InsertLoad();
        try
        {
            for (var i = 0; i < Clients; i++)
            {
                var connection = new NpgsqlConnection(server);
                load._inserts.Add(Command(connection, like));
                await connection.OpenAsync(token);
                if (i == 0)
                {
                    await using var table = new NpgsqlCommand(Table, connection);
                    await table.ExecuteNonQueryAsync(token);
                }

                await load._inserts[i].PrepareAsync(token);
            }

            return load;
        }
        catch
        {
            await load.DisposeAsync();
            throw;
        }
    }

    int ILoad.Clients => Clients;

    public async ValueTask Ask(int client, CancellationToken token)
    {
        var insert = _inserts[client];
        ((NpgsqlParameter<long>)insert.Parameters[0]).TypedValue = Interlocked.Increment(ref _serial);
        await insert.ExecuteNonQueryAsync(token);
    }

    public async ValueTask DisposeAsync()
    {
        foreach (var insert in _inserts)
        {
            await insert.Connection!.DisposeAsync();
            await insert.DisposeAsync();
        }
    }

    private static NpgsqlCommand Command(NpgsqlConnection connection, EntryRow like)
    {
        var command = new NpgsqlCommand(Insert, connection);
        command.Parameters.Add(new NpgsqlParameter<long> { NpgsqlDbType = NpgsqlDbType.Bigint });
        foreach (var text in new[] { like.At, like.Kind, like.Fixture })
        {
            command.Parameters.Add(Text(text));
        }

        command.Parameters.Add(new NpgsqlParameter { NpgsqlDbType = NpgsqlDbType.Integer, Value = like.Revision ?? (object)DBNull.Value });
        foreach (var text in new[] { like.Client, like.Tag, like.Body })
        {
            command.Parameters.Add(Text(text));
        }

        command.Parameters.Add(new NpgsqlParameter { NpgsqlDbType = NpgsqlDbType.Bytea, Value = like.Hash });
        return command;
    }

    private static NpgsqlParameter Text(string? value) => new() { NpgsqlDbType = NpgsqlDbType.Text, Value = value ?? (object)DBNull.Value };
}
