using System.Net;
using Microsoft.AspNetCore.Connections;

namespace Stockseat.Service.Hosting;

/// <summary>
/// Accepts no connection above a limit before another one has ended; the system lets such connections wait. The door turns connections away, but each one is an
/// open file of this process until then.
/// </summary>
/// <param name="of">What listens at an endpoint.</param>
/// <param name="most">How many may be open, for all listeners together.</param>
internal sealed class BoundedTransport(Func<EndPoint, IConnectionListenerFactory> of, int most) : IConnectionListenerFactory, IDisposable
{
    private readonly SemaphoreSlim _room = new(most);

    public async ValueTask<IConnectionListener> BindAsync(EndPoint endpoint, CancellationToken cancellationToken = default) =>
        new Listener(await of(endpoint).BindAsync(endpoint, cancellationToken), _room);

    public void Dispose() => _room.Dispose();

    private sealed class Listener(IConnectionListener inner, SemaphoreSlim room) : IConnectionListener
    {
        private readonly CancellationTokenSource _unbound = new();

        public EndPoint EndPoint => inner.EndPoint;

        public async ValueTask<ConnectionContext?> AcceptAsync(CancellationToken cancellationToken = default)
        {
            using var ends = CancellationTokenSource.CreateLinkedTokenSource(cancellationToken, _unbound.Token);
            try
            {
                await room.WaitAsync(ends.Token);
            }
            catch (OperationCanceledException) when (_unbound.IsCancellationRequested)
            {
                return null;
            }

            ConnectionContext? accepted = null;
            try
            {
                accepted = await inner.AcceptAsync(cancellationToken);
                return accepted is null ? null : new CountedConnection(accepted, room);
            }
            finally
            {
                if (accepted is null)
                {
                    room.Release();
                }
            }
        }

        public async ValueTask UnbindAsync(CancellationToken cancellationToken = default)
        {
            await _unbound.CancelAsync();
            await inner.UnbindAsync(cancellationToken);
        }

        public async ValueTask DisposeAsync()
        {
            await inner.DisposeAsync();
            _unbound.Dispose();
        }
    }
}
