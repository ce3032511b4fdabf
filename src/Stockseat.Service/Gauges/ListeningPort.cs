using System.Net;
using Microsoft.AspNetCore.Connections;
using Microsoft.AspNetCore.Connections.Features;
using Microsoft.Extensions.Logging;
using Stockseat.Service.Clients;

namespace Stockseat.Service.Gauges;

/// <summary>
/// A port that the gauge connects to. There is one gauge, so there is one connection: the newest on which a line came, since a gauge that comes back after a
/// pulled cable leaves its old connection open on this side. A silent connection, or one that speaks another protocol, does not replace the gauge's.
/// </summary>
internal sealed class ListeningPort(ReadingPort port, ILogger logger)
{
    private readonly Lock _lock = new();
    private CancellationTokenSource? _current;
    private CancellationTokenSource? _beside;

    public ReadingPort Port => port;

    public async Task OnConnected(ConnectionContext connection)
    {
        if (connection.RemoteEndPoint is not IPEndPoint end
            || ClientTable.Plain(end.Address) is not { } address
            || !port.Configured.From.Any(f => f.Contains(address)))
        {
            port.NotUsed(PortCause.Stranger, $"a connection from {connection.RemoteEndPoint}");
            return;
        }

        connection.KeepAlive();
        var closing = connection.Features.Get<IConnectionLifetimeNotificationFeature>()?.ConnectionClosedRequested ?? CancellationToken.None;
        using var visit = CancellationTokenSource.CreateLinkedTokenSource(closing);
        Come(visit);
        try
        {
            await port.Read(connection.Transport.Input, new IPEndPoint(address, end.Port).ToString(), () => Enter(visit), visit.Token);
        }
        catch (Exception e) when (e is ConnectionResetException or ConnectionAbortedException or OperationCanceledException)
        {
            // The gauge went away, a newer connection came, or the service stops.
        }
        catch (Exception e)
        {
            Log.PortFailed(logger, e, port.Configured.Name);
        }
        finally
        {
            Leave(visit);
        }
    }

    /// <summary>Takes the place when it is free; otherwise it waits beside it, and only the newest one waits.</summary>
    private void Come(CancellationTokenSource visit)
    {
        lock (_lock)
        {
            if (_current is null)
            {
                Enter(visit);
                return;
            }

            var before = _beside;
            _beside = visit;
            GiveWay(before);
        }
    }

    /// <summary>A line came: this connection takes the place of the one before.</summary>
    private void Enter(CancellationTokenSource visit)
    {
        lock (_lock)
        {
            if (ReferenceEquals(_current, visit) || visit.IsCancellationRequested)
            {
                return;
            }

            var before = _current;
            (_current, _beside) = (visit, ReferenceEquals(_beside, visit) ? null : _beside);
            port.Book.Becomes(PortState.Connected);
            GiveWay(before);
        }
    }

    private void GiveWay(CancellationTokenSource? before)
    {
        if (before is not null)
        {
            port.Book.Count(PortCause.Replaced, "a newer connection of the gauge came");
            before.Cancel(); // It is not disposed before it has left, which takes the same lock.
        }
    }

    private void Leave(CancellationTokenSource visit)
    {
        lock (_lock)
        {
            if (ReferenceEquals(_beside, visit))
            {
                _beside = null;
            }
            else if (ReferenceEquals(_current, visit))
            {
                (_current, _beside) = (_beside, null);
                port.Book.Becomes(_current is null ? PortState.Listening : PortState.Connected);
            }
        }
    }
}
