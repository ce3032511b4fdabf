using System.Net;
using Grpc.Net.Client;
using Stockseat.Load.Servers;
using Stockseat.V1;

namespace Stockseat.Load.Clients;

/// <summary>
/// Locate over gRPC: a number of clients with one call in flight each, spread over a number of connections. The requests are made beforehand.
/// </summary>
internal sealed class GrpcLoad : ILoad
{
    private readonly GrpcChannel[] _channels;
    private readonly LookupService.LookupServiceClient[] _clients;
    private readonly LocateRequest[] _requests;

    public GrpcLoad(IPEndPoint server, int connections, int clients, Certificates? tls = null)
    {
        // A channel with a handler of its own is a connection of its own.
        _channels = [.. Enumerable.Range(0, connections).Select(_ => GrpcChannel.ForAddress(
            $"{(tls is null ? "http" : "https")}://{server}", new() { HttpHandler = Handler(tls), DisposeHttpClient = true }))];
        _clients = [.. Enumerable.Range(0, clients).Select(i => new LookupService.LookupServiceClient(_channels[i % connections]))];
        _requests = [.. Enumerable.Range(0, clients).Select(i => new LocateRequest
        {
            Fixture = Workplace.Fixture, DiameterMetres = 0.070 + i % 64 * 0.000_31, Tag = $"load-{i}",
        })];
    }

    public int Clients => _clients.Length;

    public async ValueTask Ask(int client, CancellationToken token)
    {
        var request = _requests[client];
        using var call = _clients[client].LocateAsync(request, cancellationToken: token);
        var response = await call.ResponseAsync;
        if (response.Tag != request.Tag)
        {
            throw new InvalidOperationException($"the answer to {request.Tag} is of {response.Tag}");
        }
    }

    private static SocketsHttpHandler Handler(Certificates? tls) => tls is null ? new() : new() { SslOptions = tls.Options() };

    public ValueTask DisposeAsync()
    {
        Array.ForEach(_channels, c => c.Dispose());
        return ValueTask.CompletedTask;
    }
}
