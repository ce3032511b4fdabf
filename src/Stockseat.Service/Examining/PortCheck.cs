using System.Net;
using System.Net.Sockets;

namespace Stockseat.Service.Examining;

/// <summary>Whether the ports are free for a service that does not run, or taken while one does.</summary>
internal static class PortCheck
{
    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(2);

    public static IEnumerable<Finding> Look(Examined examined)
    {
        var settings = examined.Settings;
        IEnumerable<(string Name, IPEndPoint? At)> all =
        [
            ("Listen:Grpc", settings.Grpc), ("Listen:Line", settings.Line), ("Listen:LineTls", settings.LineTls),
            .. settings.ReadingPorts.Select(p => ($"reading port {p.Name}", p.Listen)),
        ];
        return all.Where(p => p.At is not null).Select(p => Of(p.Name, p.At!, examined.Runs));
    }

    private static Finding Of(string name, IPEndPoint at, bool runs) => at.Port == 0
        ? Finding.Good(name, $"{at} takes a free port at each start")
        : runs ? Answered(name, at) : Free(name, at);

    private static Finding Free(string name, IPEndPoint at)
    {
        using var socket = new Socket(at.AddressFamily, SocketType.Stream, ProtocolType.Tcp);
        try
        {
            socket.Bind(at);
            socket.Listen(1);
            return Finding.Good(name, $"{at} is free");
        }
        catch (SocketException e)
        {
            return Finding.Fault(name, $"{at} can't be used: {Why(e, at)}");
        }
    }

    private static string Why(SocketException e, IPEndPoint at) => e.SocketErrorCode switch
    {
        SocketError.AddressAlreadyInUse =>
            $"another program listens there; end it (sudo ss -ltnp \"sport = {at.Port}\" names it on Linux), or state another port",
        SocketError.AddressNotAvailable => $"this computer has no address {at.Address}; state one that it has, or 0.0.0.0 for all of them",
        SocketError.AccessDenied => $"this user may not listen on port {at.Port}; state a port from 1024 on",
        _ => $"{e.Message.TrimEnd('.')}; state another address",
    };

    private static Finding Answered(string name, IPEndPoint at)
    {
        var to = at.Address.Equals(IPAddress.Any) ? new(IPAddress.Loopback, at.Port)
            : at.Address.Equals(IPAddress.IPv6Any) ? new(IPAddress.IPv6Loopback, at.Port) : at;
        using var socket = new Socket(to.AddressFamily, SocketType.Stream, ProtocolType.Tcp);
        try
        {
            using var late = new CancellationTokenSource(Longest, TimeProvider.System);
            socket.ConnectAsync(to, late.Token).AsTask().GetAwaiter().GetResult();
            return Finding.Good(name, $"{at} is listening");
        }
        catch (Exception e) when (e is SocketException or OperationCanceledException)
        {
            return Finding.Fault(name, $"nothing listens on {at}, though a service seems to be using the data folder (its lock is taken, or this user can't "
                + "look): it is starting or stopping, or runs with another configuration; look at its log");
        }
    }
}
