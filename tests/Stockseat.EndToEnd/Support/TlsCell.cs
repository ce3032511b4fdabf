using System.Net;
using System.Net.Security;
using System.Security.Cryptography.X509Certificates;
using System.Text;
using System.Text.Json.Nodes;
using Stockseat.Tests.Support;

namespace Stockseat.EndToEnd.Support;

/// <summary>A cell whose service has a certificate, with a client known by name, lathe-4, and one known by its pin, bench.</summary>
internal sealed class TlsCell : IDisposable
{
    public TlsCell(bool byAddress = false)
    {
        Shop.Issue("service", TestShop.Server);
        Shop.Issue("lathe-4", TestShop.Client);
        Shop.Issue("bench", TestShop.Client);
        Configure(settings =>
        {
            settings["Listen"] = new JsonObject { ["LineTls"] = "127.0.0.1:0" };
            settings["Tls"] = new JsonObject
            {
                ["Certificate"] = Shop.Pem("service"), ["Key"] = Shop.Key("service"), ["Authorities"] = Shop.Authority,
            };
            var clients = new JsonArray(
                new JsonObject { ["Name"] = "lathe-4", ["Certificate"] = "dns:lathe-4", ["Roles"] = new JsonArray("locate") },
                new JsonObject
                {
                    ["Name"] = "bench", ["Certificate"] = Shop.Pin("bench"), ["Roles"] = new JsonArray("locate", "measure", "review", "calibrate"),
                });
            if (byAddress)
            {
                clients.Add(new JsonObject { ["Name"] = "here", ["From"] = new JsonArray("127.0.0.1"),
                    ["Roles"] = new JsonArray("locate", "measure", "review") });
            }

            settings["Clients"] = clients;
        });
    }

    public TestShop Shop { get; } = new();

    public Cell Cell { get; } = new();

    /// <summary>Changes the configuration; a start reads it.</summary>
    public void Configure(Action<JsonNode> change)
    {
        var settings = JsonNode.Parse(File.ReadAllText(Cell.Config), null, new() { CommentHandling = System.Text.Json.JsonCommentHandling.Skip })!;
        change(settings);
        Cell.Write(Cell.Config, settings.ToJsonString());
    }

    /// <summary>Runs a command over TLS as a client.</summary>
    public Task<Run> Ask(Built program, Service service, string? who, params string[] arguments) => program.Run(
    [
        .. arguments, "--server", $"https://{service.Grpc}", "--authority", Shop.Authority, .. who is null ? (string[])[] : ["--certificate", Shop.Pem(who)],
    ]);

    /// <summary>A connection for lines over TLS.</summary>
    public async Task<TlsLine> Line(Service service, string? who) => await TlsLine.Connect(service.LineTls!, who is null ? null : Shop.Load(who));

    public void Dispose()
    {
        Cell.Dispose();
        Shop.Dispose();
    }
}

/// <summary>Lines over TLS, from a client that trusts everybody: what matters here is whom the service trusts.</summary>
internal sealed class TlsLine : IDisposable
{
    private readonly System.Net.Sockets.Socket _socket;
    private readonly SslStream _stream;
    private StreamReader? _reader;

    private TlsLine(System.Net.Sockets.Socket socket, SslStream stream) => (_socket, _stream) = (socket, stream);

    /// <summary>The pin of the certificate that the service showed.</summary>
    public string Pin { get; private set; } = "";

    public static async Task<TlsLine> Connect(IPEndPoint endpoint, X509Certificate2? certificate, string? from = null)
    {
        var socket = new System.Net.Sockets.Socket(System.Net.Sockets.SocketType.Stream, System.Net.Sockets.ProtocolType.Tcp) { NoDelay = true };
        if (from is not null)
        {
            socket.Bind(new IPEndPoint(IPAddress.Parse(from), 0));
        }

        await socket.ConnectAsync(endpoint).Within($"a connection to {endpoint}");
        var line = new TlsLine(socket, new(new System.Net.Sockets.NetworkStream(socket, ownsSocket: true)));
        await line._stream.AuthenticateAsClientAsync(new SslClientAuthenticationOptions
        {
            TargetHost = "localhost",
            ClientCertificates = certificate is null ? null : [certificate],
            RemoteCertificateValidationCallback = (_, shown, _, _) =>
            {
                line.Pin = "sha256:" + Convert.ToHexStringLower(
                    System.Security.Cryptography.SHA256.HashData(((X509Certificate2)shown!).PublicKey.ExportSubjectPublicKeyInfo()));
                return true;
            },
        }).Within("the agreement on TLS");
        line._reader = new(line._stream, Encoding.ASCII); // Before TLS is agreed on, nothing can be read.
        return line;
    }

    /// <summary>Sends a line and reads the reply; null when the connection ended.</summary>
    public async Task<string?> Ask(string line)
    {
        await _stream.WriteAsync(Encoding.ASCII.GetBytes(line + "\n")).AsTask().Within($"the sending of: {line}");
        return await _reader!.ReadLineAsync().Within($"the reply to: {line}");
    }

    public void Dispose()
    {
        _reader?.Dispose();
        _socket.Dispose();
    }
}
