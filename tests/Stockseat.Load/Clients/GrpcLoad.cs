using System.Net;
using Grpc.Net.Client;
using Stockseat.Load.Servers;
using Stockseat.V1;

namespace Stockseat.Load.Clients;

/// <summary>Locate over gRPC: so many calls in flight, spread over so many connections. The requests are made beforehand.</summary>
internal sealed class GrpcLoad : ILoad
{
    private const int Connections = 4;
    private const int InFlight = 64;

    private readonly GrpcChannel[] _channels;
    private readonly LookupService.LookupServiceClient[] _clients;
    private readonly LocateRequest[] _requests;

    public GrpcLoad(IPEndPoint server)
    {
        // A channel with a handler of its own is a connection of its own.
        _channels = [.. Enumerable.Range(0, Connections).Select(_ => GrpcChannel.ForAddress($"http://{server}", new() { HttpHandler = new SocketsHttpHandler(), DisposeHttpClient = true }))];
        _clients = [.. _channels.Select(c => new LookupService.LookupServiceClient(c))];
        _requests = [.. Enumerable.Range(0, InFlight).Select(i => new LocateRequest { Fixture = Workplace.Fixture, DiameterMetres = 0.070 + i * 0.000_31, Tag = $"load-{i}" })];
    }

    public Task<double> Run(TimeSpan span, CancellationToken token) => Window.Rate(span, InFlight, async (i, window) =>
    {
        var (client, request) = (_clients[i % Connections], _requests[i]);
        for (var answers = 0L; ; answers++)
        {
            using var call = client.LocateAsync(request, cancellationToken: token);
            var response = await call.ResponseAsync;
            if (response.Tag != request.Tag)
            {
                throw new InvalidOperationException($"the answer to {request.Tag} is of {response.Tag}");
            }

            if (!window.Open)
            {
                return answers;
            }
        }
    });

    public ValueTask DisposeAsync()
    {
        Array.ForEach(_channels, c => c.Dispose());
        return ValueTask.CompletedTask;
    }
}
