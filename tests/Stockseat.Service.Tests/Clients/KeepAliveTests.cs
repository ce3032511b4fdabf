using System.Net;
using System.Net.Sockets;
using Stockseat.Service.Clients;

namespace Stockseat.Service.Tests.Clients;

/// <summary>A connection whose other side disappeared is found, and an option that the system doesn't know costs no connection.</summary>
public class KeepAliveTests
{
    [Fact]
    public void Socket_GetsAllOptions()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        using var socket = new Socket(SocketType.Stream, ProtocolType.Tcp);
        socket.Connect(listener.LocalEndpoint);

        KeepAlive.Switch(socket);

        Assert.NotEqual(0, (int)socket.GetSocketOption(SocketOptionLevel.Socket, SocketOptionName.KeepAlive)!);
        Assert.Equal(60, (int)socket.GetSocketOption(SocketOptionLevel.Tcp, SocketOptionName.TcpKeepAliveTime)!);
        Assert.Equal(10, (int)socket.GetSocketOption(SocketOptionLevel.Tcp, SocketOptionName.TcpKeepAliveInterval)!);
        Assert.Equal(5, (int)socket.GetSocketOption(SocketOptionLevel.Tcp, SocketOptionName.TcpKeepAliveRetryCount)!);
    }

    [Theory]
    [InlineData(SocketOptionName.TcpKeepAliveTime)]
    [InlineData(SocketOptionName.TcpKeepAliveInterval)]
    [InlineData(SocketOptionName.TcpKeepAliveRetryCount)]
    public void AnOptionThatTheSystemDoesNotKnow_TheOthersAreSet(SocketOptionName unknown)
    {
        var tried = new List<SocketOptionName>();

        KeepAlive.Switch((_, name, _) =>
        {
            tried.Add(name);
            if (name == unknown)
            {
                throw new SocketException((int)SocketError.ProtocolOption);
            }
        });

        Assert.Equal(
            [SocketOptionName.KeepAlive, SocketOptionName.TcpKeepAliveTime, SocketOptionName.TcpKeepAliveInterval, SocketOptionName.TcpKeepAliveRetryCount],
            tried);
    }

    [Fact]
    public void AnotherFailure_IsNotHidden() =>
        Assert.Throws<SocketException>(() => KeepAlive.Switch((_, _, _) => throw new SocketException((int)SocketError.NotSocket)));
}
