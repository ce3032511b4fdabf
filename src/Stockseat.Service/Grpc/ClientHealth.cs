using Grpc.Core;
using Grpc.Health.V1;
using Grpc.HealthCheck;
using Stockseat.Service.Clients;
using Stockseat.Service.Health;

namespace Stockseat.Service.Grpc;

/// <summary>The standard health service as a client may see it: a fixture that is not the client's does not exist for it.</summary>
internal sealed class ClientHealth(ServiceHealth health) : global::Grpc.Health.V1.Health.HealthBase
{
    /// <summary>No fixture has this name.</summary>
    private const string Nothing = ServiceHealth.OfFixture;

    private readonly HealthServiceImpl _all = health.Implementation;

    public override Task<HealthCheckResponse> Check(HealthCheckRequest request, ServerCallContext context) => _all.Check(Seen(request, context), context);

    public override Task Watch(HealthCheckRequest request, IServerStreamWriter<HealthCheckResponse> responseStream, ServerCallContext context) =>
        _all.Watch(Seen(request, context), responseStream, context);

    private HealthCheckRequest Seen(HealthCheckRequest request, ServerCallContext context) =>
        request.Service.StartsWith(ServiceHealth.OfFixture, StringComparison.Ordinal)
            && !context.Visit().Client.MaySee(request.Service[ServiceHealth.OfFixture.Length..])
            ? new() { Service = Nothing }
            : request;
}
