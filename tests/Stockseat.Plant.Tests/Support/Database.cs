using Npgsql;
using Stockseat.Plant.Connecting;

namespace Stockseat.Plant.Tests.Support;

/// <summary>A database of the test server.</summary>
internal sealed record Database(string Host, string Name)
{
    /// <summary>How a login connects.</summary>
    public PlantAddress Address(string login = "postgres")
    {
        var address = PlantAddress.Read($"Host={Host};Database={Name};Username={login}", null, out var fault);
        Assert.Null(fault);
        return address!;
    }

    /// <summary>Runs SQL and returns what it finds: cells as text, with commas between them and NULL as "-".</summary>
    public async Task<List<string>> Sql(string sql, string login = "postgres")
    {
        await using var connection = new NpgsqlConnection($"Host={Host};Database={Name};Username={login};Pooling=false");
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand(sql, connection);
        await using var reader = await command.ExecuteReaderAsync();
        var rows = new List<string>();
        while (await reader.ReadAsync())
        {
            rows.Add(string.Join(',', Enumerable.Range(0, reader.FieldCount).Select(i => reader.IsDBNull(i) ? "-" : Convert.ToString(
                reader.GetValue(i), System.Globalization.CultureInfo.InvariantCulture))));
        }

        return rows;
    }
}
