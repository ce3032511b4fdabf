using System.Net;
using System.Net.Sockets;
using System.Text;
using System.Text.Json.Nodes;
using Stockseat.Service.Tests.Support;

namespace Stockseat.Service.Tests.Gauges;

/// <summary>A gauge at a socket, and the configuration that a service needs to accept it.</summary>
internal sealed class GaugeClient : IDisposable
{
    private readonly TcpClient _client;

    public GaugeClient(TcpClient client)
    {
        _client = client;
        _client.NoDelay = true;
    }

    public static async Task<GaugeClient> Connect(IPEndPoint to)
    {
        var client = new TcpClient();
        await client.ConnectAsync(to).Within($"a connection to {to}");
        return new(client);
    }

    /// <summary>
    /// A port of the gauge bench-2 with a decimal comma that uses each line at once. Other keys replace those here; a key with null is left out.
    /// </summary>
    public static JsonObject Port(params (string Key, JsonNode? Value)[] keys)
    {
        var port = new JsonObject
        {
            ["Name"] = "bench-gauge", ["Gauge"] = "bench-2", ["Fixture"] = "pinbed-1", ["Listen"] = "127.0.0.1:0",
            ["Pattern"] = "(?<reading>[0-9]+,[0-9]+)", ["DecimalMark"] = ",", ["Settle"] = "00:00:00", ["Apart"] = "00:00:00",
        };
        foreach (var (key, value) in keys)
        {
            port.Remove(key);
            if (value is not null)
            {
                port[key] = value;
            }
        }

        return port;
    }

    public static Task<Bench> Serve(params JsonObject[] ports) => Serve(null, ports);

    public static Task<Bench> Serve(TimeProvider? time, params JsonObject[] ports) =>
        Bench.Start(time, settings => settings["ReadingPorts"] = new JsonArray([.. ports]));

    /// <summary>Asks for the state, again and again, until it contains a text.</summary>
    public static async Task<string> Until(LineClient line, string text, string ask = "status fixture=pinbed-1")
    {
        var reply = "";
        await Deadline.Until(async () => (reply = await line.Ask(ask)).Contains(text, StringComparison.Ordinal), text, more: () => reply);
        return reply;
    }

    public async Task Send(string text) => await _client.GetStream().WriteAsync(Encoding.Latin1.GetBytes(text)).Within("the reading of the bytes by the port");

    /// <summary>Waits until the service has closed the connection.</summary>
    public async Task Closed()
    {
        try
        {
            Assert.Equal(0, await _client.GetStream().ReadAsync(new byte[1]).Within("the end of the connection"));
        }
        catch (IOException)
        {
            // Closed with a reset, which also counts.
        }
    }

    public void Dispose() => _client.Dispose();
}
