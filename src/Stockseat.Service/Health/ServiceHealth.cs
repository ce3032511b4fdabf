using Grpc.Health.V1;
using Grpc.HealthCheck;

namespace Stockseat.Service.Health;

/// <summary>The standard health service: serving means that an ask can be logged and so answered.</summary>
internal sealed class ServiceHealth
{
    private static readonly string[] Names =
        ["", "stockseat.v1.LookupService", "stockseat.v1.GaugeService", "stockseat.v1.FixtureService"];

    private readonly Lock _lock = new();
    private bool _stopping;

    /// <summary>What gRPC serves.</summary>
    public HealthServiceImpl Implementation { get; } = new();

    /// <summary>Told when the ledger becomes writable or stops being so.</summary>
    public void Writable(bool writable)
    {
        lock (_lock)
        {
            Set(writable && !_stopping);
        }
    }

    /// <summary>Told when a stop begins.</summary>
    public void Stopping()
    {
        lock (_lock)
        {
            _stopping = true;
            Set(false);
        }
    }

    private void Set(bool serving)
    {
        foreach (var name in Names)
        {
            Implementation.SetStatus(name, serving ? HealthCheckResponse.Types.ServingStatus.Serving : HealthCheckResponse.Types.ServingStatus.NotServing);
        }

        Implementation.SetStatus("stockseat.v1.LedgerService", HealthCheckResponse.Types.ServingStatus.Serving);
    }
}
