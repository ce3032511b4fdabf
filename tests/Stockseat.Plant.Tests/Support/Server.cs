using System.Globalization;
using Npgsql;
using Stockseat.Plant.Connecting;
using Stockseat.Plant.Schema;

namespace Stockseat.Plant.Tests.Support;

/// <summary>One PostgreSQL server for all tests; each test has a database of its own.</summary>
public sealed class Server : IAsyncLifetime
{
    private readonly string _folder = Directory.CreateTempSubdirectory("ss-").FullName;
    private PostgreSql? _server;
    private int _databases;

    public async ValueTask InitializeAsync()
    {
        if (OperatingSystem.IsLinux() && PostgreSql.Missing is null)
        {
            File.SetUnixFileMode(_folder, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute
                | UnixFileMode.GroupRead | UnixFileMode.GroupExecute | UnixFileMode.OtherRead | UnixFileMode.OtherExecute);
            _server = await PostgreSql.Start(_folder, default, "fsync=off", "full_page_writes=off"); // Nobody cuts its power.
        }
    }

    public async ValueTask DisposeAsync()
    {
        if (_server is not null)
        {
            await _server.DisposeAsync();
        }

        Directory.Delete(_folder, recursive: true);
    }

    /// <summary>An empty database; without PostgreSQL the test is skipped.</summary>
    internal async Task<Database> Empty(string more = "")
    {
        Assert.SkipWhen(PostgreSql.Missing is not null, PostgreSql.Missing ?? "");
        var name = string.Create(CultureInfo.InvariantCulture, $"plant{Interlocked.Increment(ref _databases)}");
        await using (var connection = new NpgsqlConnection(_server!.Connection))
        {
            await connection.OpenAsync();
            await using var command = new NpgsqlCommand($"CREATE DATABASE {name} {more}", connection);
            await command.ExecuteNonQueryAsync();
        }

        return new(_server.Folder, name);
    }

    /// <summary>A database with the tables of the plant store.</summary>
    internal async Task<Database> Prepared()
    {
        var database = await Empty();
        await Preparation.Run(database.Address(), default);
        return database;
    }
}
