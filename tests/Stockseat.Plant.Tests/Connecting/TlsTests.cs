using System.Net;
using System.Net.Sockets;
using Npgsql;
using Stockseat.Plant.Connecting;
using Stockseat.Plant.Schema;

namespace Stockseat.Plant.Tests.Connecting;

/// <summary>A server that is reached over the network has to prove who it is.</summary>
public sealed class TlsTests : IDisposable
{
    private readonly TestShop _shop = new();
    private readonly string _folder = Directory.CreateTempSubdirectory("ss-").FullName;

    public void Dispose()
    {
        _shop.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    [Fact]
    public async Task Server_with_the_right_certificate_is_used_over_TLS_and_any_other_is_not()
    {
        Assert.SkipWhen(PostgreSql.Missing is not null, PostgreSql.Missing ?? "");
        var port = FreePort();
        await using var server = await Start(port);
        using var others = new TestShop("Other authority");

        var address = Address($"Host=localhost;Port={port}", _shop.Authority);
        Assert.Equal(0, await Preparation.Run(address, default));
        await using (await PlantConnection.To(address, default))
        {
            Assert.Equal("true,TLSv1.3", await Encrypted(server));
        }

        await Refuses(Address($"Host=localhost;Port={port}", others.Authority));
        await Refuses(Address($"Host=127.0.0.2;Port={port}", _shop.Authority)); // The same server, by an address that its certificate does not have.

        // Of several hosts the one is used that is there.
        await using (await PlantConnection.To(Address($"Host=127.0.0.1:1,localhost:{port}", _shop.Authority), default))
        {
            Assert.Equal("true,TLSv1.3", await Encrypted(server));
        }
    }

    private static async Task Refuses(PlantAddress address)
    {
        var refused = await Assert.ThrowsAsync<PlantException>(() => PlantConnection.To(address, default));
        Assert.Contains("certificate", refused.Message, StringComparison.Ordinal);
    }

    private static PlantAddress Address(string host, string authority)
    {
        var address = PlantAddress.Read($"{host};Database=postgres;Username=postgres;SSL Mode=VerifyFull;Root Certificate={authority}", null, out var fault);
        Assert.Null(fault);
        return address!;
    }

    private async Task<PostgreSql> Start(int port)
    {
        if (OperatingSystem.IsLinux())
        {
            File.SetUnixFileMode(_folder, (UnixFileMode)0b111_101_101);
            _shop.Issue("plant-db", TestShop.Server);
            var (certificate, key) = (Path.Combine(_folder, "server.pem"), Path.Combine(_folder, "server.key"));
            File.Copy(_shop.Pem("plant-db"), certificate);
            File.Copy(_shop.Key("plant-db"), key);
            File.SetUnixFileMode(key, UnixFileMode.UserRead | UnixFileMode.UserWrite);
            await PostgreSql.Give(key, default);
        }

        return await PostgreSql.Start(
            _folder, default, "fsync=off", "listen_addresses=127.0.0.1,127.0.0.2", $"port={port}", "ssl=on", $"ssl_cert_file={_folder}/server.pem",
            $"ssl_key_file={_folder}/server.key");
    }

    /// <summary>Whether the program's connections are encrypted, and how.</summary>
    private static async Task<string> Encrypted(PostgreSql server)
    {
        await using var connection = new NpgsqlConnection(server.Connection);
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand(
            "SELECT DISTINCT s.ssl || ',' || s.version FROM pg_stat_ssl s JOIN pg_stat_activity a USING (pid) WHERE a.application_name = 'stockseat'",
            connection);
        return (string)(await command.ExecuteScalarAsync())!;
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
