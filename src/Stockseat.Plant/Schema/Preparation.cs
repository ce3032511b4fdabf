using Npgsql;
using Stockseat.Plant.Connecting;

namespace Stockseat.Plant.Schema;

/// <summary>Makes or completes the tables of the plant store. Doing it again changes nothing.</summary>
public static class Preparation
{
    /// <summary>The oldest server that has all that the steps use.</summary>
    private const int LeastServer = 130000;

    /// <summary>So that two people don't do it at the same time: the letters STST.</summary>
    private const long Lock = 0x53545354;

    private const string NoTable = "42P01";
    private const string NoSchema = "3F000";

    /// <summary>Applies the steps that the store lacks, all or none of them.</summary>
    /// <param name="address">Where the store is; the login has to own the schema, or may create one and roles.</param>
    /// <param name="token">Ends it; then nothing was changed.</param>
    /// <returns>The step that it had before; 0: it was empty.</returns>
    /// <exception cref="PlantException">It could not be done.</exception>
    public static async Task<int> Run(PlantAddress address, CancellationToken token)
    {
        await using var connection = await PlantConnection.To(address, token);
        return await PlantException.Around(address, async () =>
        {
            await using var transaction = await connection.Open.BeginTransactionAsync(token);
            await Execute(connection, "SELECT pg_advisory_xact_lock($1)", token, Lock);
            await RequireServer(connection, address, token);
            var found = await Version(connection, token);
            RequireKnown(found, address);
            for (var step = found + 1; step <= PlantSchema.Newest; step++)
            {
                await Execute(connection, $"{PlantSchema.Steps[step - 1]}\n{PlantSchema.Record(step)}", token);
            }

            await transaction.CommitAsync(token);
            return found;
        });
    }

    /// <summary>Refuses a store whose tables this program does not know.</summary>
    internal static async Task Require(PlantConnection connection, PlantAddress address, CancellationToken token)
    {
        int found;
        try
        {
            await using var command = connection.Command("SELECT coalesce(max(version), 0) FROM stockseat.schema_version");
            found = (int)(await command.ExecuteScalarAsync(token))!;
        }
        catch (PostgresException e) when (e.SqlState is NoTable or NoSchema)
        {
            found = 0;
        }

        RequireKnown(found, address);
        if (found < PlantSchema.Newest)
        {
            throw new PlantException(
                $"the plant store {address.Name} has tables of version {found}; version {PlantSchema.Newest} is needed: run stockseat plant prepare");
        }
    }

    private static void RequireKnown(int found, PlantAddress address)
    {
        if (found > PlantSchema.Newest)
        {
            throw new PlantException($"the plant store {address.Name} has tables of version {found}; this program knows them up to {PlantSchema.Newest}: "
                + "use the program that prepared it, or a later one");
        }
    }

    private static async Task RequireServer(PlantConnection connection, PlantAddress address, CancellationToken token)
    {
        await using var command = connection.Command(
            "SELECT current_setting('server_version_num')::integer, current_setting('server_version'), current_setting('server_encoding')");
        await using var reader = await command.ExecuteReaderAsync(token);
        await reader.ReadAsync(token);
        var (version, text, encoding) = (reader.GetInt32(0), reader.GetString(1), reader.GetString(2));
        if (version < LeastServer)
        {
            throw new PlantException($"the plant store {address.Name} is PostgreSQL {text}; 13 or later is needed");
        }

        if (encoding != "UTF8")
        {
            throw new PlantException($"the database {address.Name} is encoded in {encoding}, which can't hold every text; create it with ENCODING 'UTF8'");
        }
    }

    private static async Task<int> Version(PlantConnection connection, CancellationToken token)
    {
        await using (var command = connection.Command("SELECT to_regclass('stockseat.schema_version') IS NOT NULL"))
        {
            if (!(bool)(await command.ExecuteScalarAsync(token))!)
            {
                return 0;
            }
        }

        await using var version = connection.Command("SELECT coalesce(max(version), 0) FROM stockseat.schema_version");
        return (int)(await version.ExecuteScalarAsync(token))!;
    }

    private static async Task Execute(PlantConnection connection, string sql, CancellationToken token, params object[] parameters)
    {
        await using var command = connection.Command(sql, parameters);
        await command.ExecuteNonQueryAsync(token);
    }
}
