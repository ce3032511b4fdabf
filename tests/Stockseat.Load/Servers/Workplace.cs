using Stockseat.Load.Generating;
using Stockseat.Tests.Support.Plants;

namespace Stockseat.Load.Servers;

/// <summary>The temporary folder of a run: the configuration, the ledgers, and everything that a baseline writes, on one file system.</summary>
internal sealed class Workplace : IDisposable
{
    /// <summary>The fixture that is asked for.</summary>
    public const string Fixture = "pinbed-1";

    private readonly string _config;
    private int _ledgers;

    public Workplace(string? under)
    {
        Folder = Path.Combine(Path.GetFullPath(under ?? Path.GetTempPath()), $"stockseat-load-{Environment.ProcessId}");
        Directory.CreateDirectory(Folder);
        _config = Path.Combine(Folder, "stockseat.json");
        File.WriteAllText(_config, Settings(""));
    }

    public string Folder { get; }

    /// <summary>Starts a build of the service.</summary>
    /// <param name="program">The build.</param>
    /// <param name="data">The folder of its ledger.</param>
    /// <param name="token">Gives up.</param>
    public Task<Child> Serve(string program, string data, CancellationToken token) =>
        Child.Start(program, ["serve", "--config", _config, "--data", data], token);

    /// <summary>Starts a build of the service with TLS; its client shows a certificate.</summary>
    public Task<Child> ServeTls(string program, string data, Certificates certificates, CancellationToken token)
    {
        var config = Path.Combine(Folder, "tls.json");
        File.WriteAllText(config, Settings($$"""
            , "LineTls": "127.0.0.1:0" }, "Tls": { "Certificate": "{{certificates.Pem}}", "Key": "{{certificates.Key}}"
            """, $"\"Certificate\": \"{certificates.Pin}\","));
        return Child.Start(program, ["serve", "--config", config, "--data", data], token);
    }

    /// <summary>Starts a build of the service that sends its entries to a plant store.</summary>
    public Task<Child> ServePlant(string program, string data, PostgreSql database, CancellationToken token)
    {
        var config = Path.Combine(Folder, "plant.json");
        File.WriteAllText(config, Settings($$"""
            }, "Plant": { "Connection": "Host={{database.Folder}};Database=postgres;Username=postgres"
            """));
        return Child.Start(program, ["serve", "--config", config, "--data", data], token);
    }

    /// <summary>Starts a build of the service that measures nothing: nobody could read it.</summary>
    public Task<Child> ServeUnmeasured(string program, string data, CancellationToken token)
    {
        var config = Path.Combine(Folder, "unmeasured.json");
        File.WriteAllText(config, File.ReadAllText(_config).Replace("\"Page\": \"127.0.0.1:0\"", "\"Page\": \"none\"", StringComparison.Ordinal));
        return Child.Start(program, ["serve", "--config", config, "--data", data], token);
    }

    /// <summary>A folder without a ledger.</summary>
    public string NewLedger() => Path.Combine(Folder, $"ledger-{++_ledgers}");

    /// <summary>A folder with a big ledger.</summary>
    public async Task<string> BigLedger(long entries, CancellationToken token)
    {
        var data = NewLedger();
        await LedgerGenerator.Run(data, Repository.Fixtures, entries, Console.Error.WriteLine, token);
        return data;
    }

    /// <summary>A folder with a copy of an unused ledger, for writing to.</summary>
    public string CopyOf(string data)
    {
        var copy = NewLedger();
        Directory.CreateDirectory(copy);
        foreach (var file in Directory.GetFiles(data))
        {
            File.Copy(file, Path.Combine(copy, Path.GetFileName(file)));
        }

        return copy;
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true);

    private static string Settings(string listen, string client = "") => $$"""
        {
          "Listen": { "Grpc": "127.0.0.1:0", "Line": "127.0.0.1:0", "Page": "127.0.0.1:0" {{listen}} },
          "Fixtures": "{{Repository.Fixtures.Replace('\\', '/')}}",
          "FirstAdoption": "automatic",
          "Clients": [ { "Name": "load", "Cell": "load", {{client}} "From": [ "127.0.0.0/8" ], "Roles": [ "locate", "measure", "review" ],
            "Connections": 4000, "Rate": 1000000 } ]
        }
        """;
}
