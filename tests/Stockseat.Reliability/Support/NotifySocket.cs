using System.Net.Sockets;
using System.Text;
using Stockseat.Tests.Support;

namespace Stockseat.Reliability.Support;

/// <summary>Receives what a service reports to its supervisor.</summary>
internal sealed class NotifySocket : IDisposable
{
    private readonly Socket _socket = new(AddressFamily.Unix, SocketType.Dgram, ProtocolType.Unspecified);

    public NotifySocket(string path)
    {
        Path = path;
        _socket.Bind(new UnixDomainSocketEndPoint(path));
    }

    public string Path { get; }

    /// <summary>Whether every message that came was taken.</summary>
    public bool IsEmpty => _socket.Available == 0;

    /// <summary>The next message.</summary>
    public async Task<string> Next()
    {
        var buffer = new byte[4096];
        var length = await _socket.ReceiveAsync(buffer.AsMemory()).AsTask().Within("a message to the supervisor");
        return Encoding.UTF8.GetString(buffer, 0, length).Trim();
    }

    public void Dispose() => _socket.Dispose();
}
