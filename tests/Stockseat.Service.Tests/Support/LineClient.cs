using System.Net;
using System.Net.Sockets;
using System.Text;

namespace Stockseat.Service.Tests.Support;

/// <summary>A plain socket, like a controller's.</summary>
internal sealed class LineClient : IDisposable
{
    private readonly Socket _socket;
    private readonly StreamReader _reader;

    private LineClient(Socket socket)
    {
        _socket = socket;
        _reader = new(new NetworkStream(socket), Encoding.ASCII);
    }

    public static async Task<LineClient> Connect(IPEndPoint endpoint, string? from = null)
    {
        var socket = new Socket(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp) { NoDelay = true };
        if (from is not null)
        {
            socket.Bind(new IPEndPoint(IPAddress.Parse(from), 0));
        }

        await socket.ConnectAsync(endpoint).Within($"a connection to {endpoint}");
        return new(socket);
    }

    public async Task Send(string text) => await Send(Encoding.UTF8.GetBytes(text));

    public async Task Send(byte[] bytes)
    {
        for (ReadOnlyMemory<byte> rest = bytes; !rest.IsEmpty;)
        {
            rest = rest[await _socket.SendAsync(rest, SocketFlags.None).Within($"the reading of {bytes.Length} bytes by the service")..];
        }
    }

    /// <summary>The next reply; null at the end of the stream.</summary>
    public Task<string?> Read() => _reader.ReadLineAsync().Within("a line of the service, or the end of the connection");

    public async Task<string> Ask(string line)
    {
        await Send(line + "\n");
        return await Read() ?? throw new EndOfStreamException($"no reply to {line}");
    }

    public void HalfClose() => _socket.Shutdown(SocketShutdown.Send);

    /// <summary>A value of a reply; null when the key is missing.</summary>
    public static string? Value(string reply, string key) =>
        reply.Split(' ').FirstOrDefault(w => w.StartsWith(key + "=", StringComparison.Ordinal))?[(key.Length + 1)..];

    public void Dispose()
    {
        _reader.Dispose();
        _socket.Dispose();
    }
}
