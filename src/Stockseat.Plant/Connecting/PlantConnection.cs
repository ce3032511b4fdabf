using Npgsql;

namespace Stockseat.Plant.Connecting;

/// <summary>
/// A connection to the plant store. Each has a pool of its own that ends with it: a pool that lives longer would hand out connections that a restarted server
/// does not know any more.
/// </summary>
public sealed class PlantConnection : IAsyncDisposable
{
    private readonly NpgsqlDataSource _source;

    private PlantConnection(NpgsqlDataSource source, NpgsqlConnection open) => (_source, Open) = (source, open);

    internal NpgsqlConnection Open { get; }

    /// <summary>Connects; of several hosts to the one that takes writes.</summary>
    /// <param name="address">Where the store is.</param>
    /// <param name="token">Ends the attempt.</param>
    /// <exception cref="PlantException">It can't be reached, or does not let this user in.</exception>
    public static Task<PlantConnection> To(PlantAddress address, CancellationToken token) => PlantException.Around(address, async () =>
    {
        var builder = new NpgsqlSlimDataSourceBuilder(address.Now().ConnectionString);
        builder.EnableTransportSecurity();
        var source = address.HasSeveralHosts ? builder.BuildMultiHost().WithTargetSession(TargetSessionAttributes.Primary) : builder.Build();
        try
        {
            return new PlantConnection(source, await source.OpenConnectionAsync(token));
        }
        catch
        {
            await source.DisposeAsync();
            throw;
        }
    });

    /// <summary>A command; its parameters are $1, $2 and so on.</summary>
    internal NpgsqlCommand Command(string sql, params object[] parameters)
    {
        var command = new NpgsqlCommand(sql, Open);
        foreach (var value in parameters)
        {
            command.Parameters.Add(value switch
            {
                long number => new NpgsqlParameter<long> { TypedValue = number },
                Guid id => new NpgsqlParameter<Guid> { TypedValue = id },
                byte[] bytes => new NpgsqlParameter<byte[]> { TypedValue = bytes },
                string text => new NpgsqlParameter<string> { TypedValue = text },
                int number => new NpgsqlParameter<int> { TypedValue = number },
                _ => throw new ArgumentException($"a parameter is a {value.GetType().Name}; a number, a text, bytes or an id was expected", nameof(parameters)),
            });
        }

        return command;
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await Open.DisposeAsync();
        await _source.DisposeAsync();
    }
}
