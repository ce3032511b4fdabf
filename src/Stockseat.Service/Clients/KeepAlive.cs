using System.Net.Sockets;

namespace Stockseat.Service.Clients;

/// <summary>The system's probes of an idle connection: they find, within two minutes, that its other side disappeared.</summary>
public static class KeepAlive
{
    /// <summary>Seconds until the first probe, seconds between two, and how many.</summary>
    private static readonly (SocketOptionName Name, int Value)[] Options =
    [
        (SocketOptionName.TcpKeepAliveTime, 60), (SocketOptionName.TcpKeepAliveInterval, 10), (SocketOptionName.TcpKeepAliveRetryCount, 5),
    ];

    /// <summary>Switches them on.</summary>
    public static void Switch(Socket socket)
    {
        ArgumentNullException.ThrowIfNull(socket);
        Switch(socket.SetSocketOption);
    }

    /// <summary>
    /// Switches them on through whatever sets options. An older Windows (Server 2016 before 1703) doesn't know every option: it keeps its own value of
    /// that one, and the connection is used all the same.
    /// </summary>
    public static void Switch(Action<SocketOptionLevel, SocketOptionName, int> set)
    {
        ArgumentNullException.ThrowIfNull(set);
        set(SocketOptionLevel.Socket, SocketOptionName.KeepAlive, 1);
        foreach (var (name, value) in Options)
        {
            try
            {
                set(SocketOptionLevel.Tcp, name, value);
            }
            catch (SocketException e) when (e.SocketErrorCode == SocketError.ProtocolOption)
            {
                // The system's own value holds.
            }
        }
    }
}
