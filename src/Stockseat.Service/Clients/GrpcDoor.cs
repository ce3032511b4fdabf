using System.Net;
using Microsoft.AspNetCore.Connections;
using Microsoft.AspNetCore.Connections.Features;
using System.Net.Sockets;

namespace Stockseat.Service.Clients;

/// <summary>The door of the gRPC listener: its connections are counted like those of lines. An unknown caller is refused call by call.</summary>
internal static class GrpcDoor
{
    public static void UseDoor(this IConnectionBuilder listener, Door door) => listener.Use(next => async connection =>
    {
        connection.KeepAlive();
        var (visit, refusal) = door.Enter(connection.RemoteEndPoint as IPEndPoint);
        using var let = visit ?? (refusal!.Reason == Answers.Reasons.Reason.NotPermitted ? door.EnterUnknown() : null);
        if (let is null)
        {
            connection.Abort(new ConnectionAbortedException(refusal!.Text));
            return;
        }

        connection.Features.Set(visit); // Each call of the connection finds it there.
        await next(connection);
    });

    /// <summary>Finds, within two minutes, a half-open connection whose other side disappeared.</summary>
    public static void KeepAlive(this ConnectionContext connection)
    {
        connection.Features.Get<IConnectionSocketFeature>()?.Socket.KeepAlive();
    }

    /// <summary>The same for a connection that the service made.</summary>
    public static void KeepAlive(this Socket socket)
    {
        socket.SetSocketOption(SocketOptionLevel.Socket, SocketOptionName.KeepAlive, true);
        socket.SetSocketOption(SocketOptionLevel.Tcp, SocketOptionName.TcpKeepAliveTime, 60);
        socket.SetSocketOption(SocketOptionLevel.Tcp, SocketOptionName.TcpKeepAliveInterval, 10);
        socket.SetSocketOption(SocketOptionLevel.Tcp, SocketOptionName.TcpKeepAliveRetryCount, 5);
    }
}
