using System.IO.Pipelines;
using System.Net;
using Microsoft.AspNetCore.Connections;
using Microsoft.AspNetCore.Http.Features;

namespace Stockseat.Service.Hosting;

/// <summary>A connection that gives its place back when it is closed.</summary>
internal sealed class CountedConnection(ConnectionContext inner, SemaphoreSlim room) : ConnectionContext
{
    private int _closed;

    public override string ConnectionId
    {
        get => inner.ConnectionId;
        set => inner.ConnectionId = value;
    }

    public override IFeatureCollection Features => inner.Features;

    public override IDictionary<object, object?> Items
    {
        get => inner.Items;
        set => inner.Items = value;
    }

    public override IDuplexPipe Transport
    {
        get => inner.Transport;
        set => inner.Transport = value;
    }

    public override CancellationToken ConnectionClosed
    {
        get => inner.ConnectionClosed;
        set => inner.ConnectionClosed = value;
    }

    public override EndPoint? LocalEndPoint
    {
        get => inner.LocalEndPoint;
        set => inner.LocalEndPoint = value;
    }

    public override EndPoint? RemoteEndPoint
    {
        get => inner.RemoteEndPoint;
        set => inner.RemoteEndPoint = value;
    }

    public override void Abort() => inner.Abort();

    public override void Abort(ConnectionAbortedException abortReason) => inner.Abort(abortReason);

    public override async ValueTask DisposeAsync()
    {
        await inner.DisposeAsync();
        if (Interlocked.Exchange(ref _closed, 1) == 0)
        {
            room.Release();
        }
    }
}
