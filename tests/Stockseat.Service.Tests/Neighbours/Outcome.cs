using System.Net;
using System.Net.Sockets;
using System.Text;

namespace Stockseat.Service.Tests.Neighbours;

/// <summary>The replies to a connection that sends some bytes and closes its half, until the other side closes too.</summary>
internal static class Outcome
{
    /// <summary>The lines that came; null when the connection was reset.</summary>
    public static Task<IReadOnlyList<string>?> Of(Neighbourhood neighbourhood, byte[] bytes) => Of(neighbourhood.Bench.Service.Line, bytes);

    /// <summary>The same, at any port.</summary>
    public static Task<IReadOnlyList<string>?> Of(IPEndPoint endpoint, byte[] bytes) =>
        Until(endpoint, bytes).Within($"the end of a connection to {endpoint} that sent {bytes.Length} bytes");

    private static async Task<IReadOnlyList<string>?> Until(IPEndPoint endpoint, byte[] bytes)
    {
        using var socket = Bound();
        try
        {
            await socket.ConnectAsync(endpoint);
            using var reader = new StreamReader(new NetworkStream(socket), Encoding.Latin1);
            for (ReadOnlyMemory<byte> rest = bytes; !rest.IsEmpty;)
            {
                rest = rest[await socket.SendAsync(rest)..];
            }

            socket.Shutdown(SocketShutdown.Send);
            var text = await reader.ReadToEndAsync();
            return text.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        }
        catch (Exception e) when (e is SocketException or IOException)
        {
            return null;
        }
    }

    /// <summary>A socket of the bad client.</summary>
    public static Socket Bound(int? receiveBuffer = null)
    {
        var socket = new Socket(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp) { NoDelay = true };
        if (receiveBuffer is { } size)
        {
            socket.ReceiveBufferSize = size;
        }

        socket.Bind(new IPEndPoint(IPAddress.Parse(Neighbourhood.BadAddress), 0));
        return socket;
    }
}
