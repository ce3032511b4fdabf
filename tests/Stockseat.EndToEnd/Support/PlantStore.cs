using Npgsql;
using Stockseat.Tests.Support;
using Stockseat.Tests.Support.Plants;

namespace Stockseat.EndToEnd.Support;

/// <summary>A PostgreSQL server for one test, prepared by the program; without PostgreSQL the test is skipped.</summary>
internal sealed class PlantStore : IAsyncDisposable
{
    private readonly string _folder;

    private PlantStore(string folder, PostgreSql server) => (_folder, Server) = (folder, server);

    public PostgreSql Server { get; }

    /// <summary>How the program connects.</summary>
    public string Connection => $"Host={Server.Folder};Database=postgres;Username=postgres";

    /// <summary>The options that a command needs for it.</summary>
    public string[] Options => ["--connection", Connection];

    public static async Task<PlantStore> Start(Built program, bool prepared = true, params string[] options)
    {
        Assert.SkipWhen(PostgreSql.Missing is not null, PostgreSql.Missing ?? "");
        var folder = NewFolder();
        var store = new PlantStore(folder, await PostgreSql.Start(folder, default, options));
        if (prepared)
        {
            (await program.Run(["plant", "prepare", .. store.Options])).Exits(0);
        }

        return store;
    }

    /// <summary>Another server that follows this one.</summary>
    public async Task<PlantStore> Standby()
    {
        var folder = NewFolder();
        return new(folder, await Server.Standby(folder, default));
    }

    /// <summary>Lets the service of a cell send its entries here.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="connection">How it connects; null: directly.</param>
    public void Take(Cell cell, string? connection = null)
    {
        const string Data = "\"Data\": \"../data\",";
        var text = File.ReadAllText(cell.Config);
        Assert.Contains(Data, text, StringComparison.Ordinal);
        File.WriteAllText(
            cell.Config, text.Replace(Data, $$"""{{Data}} "Plant": { "Connection": "{{connection ?? Connection}}" },""", StringComparison.Ordinal));
    }

    /// <summary>Waits until the store has an entry; it may be down meanwhile.</summary>
    public Task Has(long serial) => Deadline.Until(async () => await IsThere(serial), $"entry {serial} in the store", limit: TimeSpan.FromMinutes(3));

    /// <summary>The newest serial in the store; 0: there is none.</summary>
    public async Task<long> Newest() => long.Parse((await Sql("SELECT coalesce(max(serial), 0) FROM stockseat.entry"))[0], null);

    /// <summary>Runs SQL and returns what it finds, cells with commas between them.</summary>
    public async Task<List<string>> Sql(string sql)
    {
        await using var connection = new NpgsqlConnection(Server.Connection);
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

    private async Task<bool> IsThere(long serial)
    {
        try
        {
            return await Newest() >= serial;
        }
        catch (NpgsqlException)
        {
            return false;
        }
    }

    /// <summary>A folder that the server's own user can reach.</summary>
    private static string NewFolder()
    {
        var folder = Directory.CreateTempSubdirectory("ss-").FullName;
        if (OperatingSystem.IsLinux())
        {
            File.SetUnixFileMode(folder, (UnixFileMode)0b111_101_101);
        }

        return folder;
    }

    public async ValueTask DisposeAsync()
    {
        await Server.DisposeAsync();
        Directory.Delete(_folder, recursive: true);
    }
}
