using System.Net;
using System.Net.Sockets;
using System.Text;
using Stockseat.Tests.Support;

namespace Stockseat.EndToEnd.Support;

/// <summary>A plain socket, like a controller's.</summary>
internal sealed class LineSocket : IDisposable
{
    private readonly Socket _socket;
    private readonly StreamReader _reader;

    private LineSocket(Socket socket)
    {
        _socket = socket;
        _reader = new(new NetworkStream(socket), Encoding.ASCII);
    }

    public static async Task<LineSocket> Connect(IPEndPoint endpoint)
    {
        var socket = new Socket(SocketType.Stream, ProtocolType.Tcp) { NoDelay = true };
        await socket.ConnectAsync(endpoint).Within($"a connection to {endpoint}");
        return new(socket);
    }

    /// <summary>Sends a line and reads the reply.</summary>
    public async Task<LineReply> Ask(string line) =>
        await TryAsk(line) ?? throw new EndOfStreamException($"the connection ended before the reply to: {line}");

    /// <summary>Null when the connection ended before a complete reply came.</summary>
    public async Task<LineReply?> TryAsk(string line)
    {
        try
        {
            await _socket.SendAsync(Encoding.ASCII.GetBytes(line + "\n")).Within($"the sending of: {line}");
            var reply = await _reader.ReadLineAsync().Within($"the reply to: {line}");

            // A reader treats the end of the stream as the end of a line: only a complete answer counts.
            return reply is null
                || (reply.StartsWith("ok", StringComparison.Ordinal)
                && line.StartsWith("locate", StringComparison.Ordinal) && !reply.EndsWith(" end", StringComparison.Ordinal))
                ? null
                : new(reply);
        }
        catch (Exception e) when (e is IOException or SocketException)
        {
            return null;
        }
    }

    public void Dispose()
    {
        _reader.Dispose();
        _socket.Dispose();
    }
}

/// <summary>A reply: its first word, and its values by key.</summary>
internal sealed class LineReply(string text)
{
    public string Text { get; } = text;

    public string Verdict { get; } = text.Split(' ')[0];

    public long Serial => long.Parse(this["serial"]);

    public string this[string key] =>
        Text.Split(' ').SingleOrDefault(w => w.StartsWith(key + "=", StringComparison.Ordinal))?[(key.Length + 1)..]
        ?? throw new KeyNotFoundException($"no {key} in: {Text}");
}
