using System.Net;
using Microsoft.AspNetCore.Connections;
using Microsoft.AspNetCore.Connections.Features;
using Microsoft.Extensions.Logging;
using Stockseat.Service.Clients;

namespace Stockseat.Service.Gauges;

/// <summary>
/// A port that the gauge connects to. There is one gauge, so one connection: the newest, since one that comes back after a pulled cable
/// leaves its old connection standing on this side.
/// </summary>
internal sealed class ListeningPort(ReadingPort port, ILogger logger)
{
    private readonly Lock _lock = new();
    private CancellationTokenSource? _current;

    public ReadingPort Port => port;

    public async Task OnConnected(ConnectionContext connection)
    {
        if (connection.RemoteEndPoint is not IPEndPoint end || ClientTable.Plain(end.Address) is not { } address || !port.Settings.From.Any(f => f.Contains(address)))
        {
            port.NotUsed(PortCause.Stranger, $"a connection from {connection.RemoteEndPoint}");
            return;
        }

        connection.KeepAlive();
        var closing = connection.Features.Get<IConnectionLifetimeNotificationFeature>()?.ConnectionClosedRequested ?? CancellationToken.None;
        using var visit = CancellationTokenSource.CreateLinkedTokenSource(closing);
        Enter(visit);
        try
        {
            await port.Read(connection.Transport.Input, new IPEndPoint(address, end.Port).ToString(), visit.Token);
        }
        catch (Exception e) when (e is ConnectionResetException or ConnectionAbortedException or OperationCanceledException)
        {
            // The gauge went away, a newer connection came, or the service stops.
        }
        catch (Exception e)
        {
            Log.PortFailed(logger, e, port.Settings.Name);
        }
        finally
        {
            Leave(visit);
        }
    }

    private void Enter(CancellationTokenSource visit)
    {
        lock (_lock)
        {
            if (_current is { } before)
            {
                port.Book.Count(PortCause.Replaced, "a newer connection of the gauge came");
                before.Cancel(); // Not disposed before it has left, which takes the same lock.
            }

            _current = visit;
            port.Book.Becomes(PortState.Connected);
        }
    }

    private void Leave(CancellationTokenSource visit)
    {
        lock (_lock)
        {
            if (ReferenceEquals(_current, visit))
            {
                _current = null;
                port.Book.Becomes(PortState.Listening);
            }
        }
    }
}
